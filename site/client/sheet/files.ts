// What a reader saves or copies. Nothing is sent; it is the reader's own.

import { App } from "../state/app";
import { make } from "../page/dom";
import { write } from "../state/kept";
import * as words from "../words/words";

/** Saves the sheet as a file that this page opens again. */
export function save(app: App): void {
  download(app, "my-sheet.json", write(app.state.toTake(), app.state.data), "application/json");
}

/** Hands the browser a file to save. */
export function download(app: App, name: string, text: string, type: string): void {
  const link = make("a") as HTMLAnchorElement;
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.hidden = true;
  document.body.appendChild(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  app.say(words.saved, true);
}

/** Copies a text; where the browser refuses, it is left marked for the reader to copy. */
export function copy(app: App, field: HTMLTextAreaElement | HTMLInputElement, text: string): void {
  field.value = text;
  const byHand = (): void => {
    field.focus();
    field.select();
    app.say(words.copyByHand, true);
  };
  if (!navigator.clipboard) return byHand();
  navigator.clipboard.writeText(text).then(() => app.say(words.copied, true), byHand);
}
