// The sheet without paper: as plain text, and as a file of the reader's own.
// Nothing is sent; what is saved or copied is the reader's.

import { App } from "./app";
import { tieCode, tieTyped } from "./code";
import { act, make, slot } from "./dom";
import { LARGEST, NotOpened, read, write } from "./kept";
import { need } from "./need";
import { hideProblem, showProblem } from "./problem";
import * as words from "./words";

export function tieShare(app: App, view: HTMLElement): void {
  const text = view.querySelector<HTMLTextAreaElement>("#planner-text") as HTMLTextAreaElement;
  const made = (then: (text: string) => void): void => {
    need("keelpathCarry").then((carry) => then(carry.plainText(app))).catch(() => app.say(words.notLoaded, true));
  };
  slot(view, "share").addEventListener("toggle", () => made((all) => (text.value = all)));
  act(view, "copy", () => made((all) => copy(app, text, all)));
  act(view, "save", () => save(app));
  tieCode(app, view);
}

/** Ties the field that opens a saved sheet. */
export function tieOpen(app: App, view: HTMLElement): void {
  const field = view.querySelector<HTMLInputElement>("#planner-file") as HTMLInputElement;
  field.addEventListener("change", () => {
    const file = field.files && field.files[0];
    if (!file) return;
    hideProblem(view, "file-problem");
    const done = (text: string): void => {
      field.value = ""; // so that the same file can be chosen again
      open(app, view, field, text);
    };
    if (file.size > MOST_BYTES) return refuse(view, field, "large");
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result));
    reader.onerror = () => done("");
    reader.readAsText(file);
  });
  tieTyped(app, view);
}

/** A character is four bytes at most. */
const MOST_BYTES = 4 * LARGEST;

function open(app: App, view: HTMLElement, field: HTMLElement, text: string): void {
  const found = read(text, app.state.data);
  if ("refused" in found) return refuse(view, field, found.refused);
  const left = words.leftOut(found);
  app.open(found.kept, [words.opened, left].filter((s) => s).join(" "), !!left);
}

function refuse(view: HTMLElement, field: HTMLElement, why: NotOpened["refused"]): void {
  showProblem(view, words.notOpened[why], field, "file-problem");
}

/** Hands the browser a file to save. */
export function save(app: App): void {
  download(app, "my-sheet.json", write(app.state.toTake(), app.state.data), "application/json");
}

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
