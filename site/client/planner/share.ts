// The sheet without paper: as plain text, and as a file that is saved and opened again.

import { App } from "../state/app";
import { tieCode, tieTyped } from "./code";
import { act, slot } from "../page/dom";
import { copy, save } from "../sheet/files";
import { LARGEST, topicsIn } from "../state/kept";
import { need } from "./need";
import { hideProblem, showProblem } from "../page/problem";
import * as words from "../words/words";

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
    if (file.size > MOST_BYTES) return refuse(view, field, words.tooLarge);
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
  const reads = (): void => {
    const found = app.read(text);
    if ("refused" in found) return refuse(view, field, found.says);
    const left = found.says;
    app.open(found.kept, [words.opened, left].filter((s) => s).join(" "), !!left);
  };
  app.load(topicsIn(text, app.state.data)).then(reads, () => refuse(view, field, words.notLoaded));
}

function refuse(view: HTMLElement, field: HTMLElement, why: string): void {
  showProblem(view, why, field, "file-problem");
}
