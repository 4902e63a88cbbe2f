// The sheet without paper: as plain text, and as a file that is saved and opened again.

import { App } from "../state/app";
import { tieCode, tieTyped } from "./code";
import { act, slot } from "../page/dom";
import { copy, save } from "../sheet/files";
import { ask } from "./need";

export function tieShare(app: App, view: HTMLElement): void {
  const text = view.querySelector<HTMLTextAreaElement>("#planner-text") as HTMLTextAreaElement;
  const made = (then: (text: string) => void): void => {
    ask(app, "keelpathCarry", (carry) => then(carry.plainText(app)));
  };
  slot(view, "share").addEventListener("toggle", () => made((all) => (text.value = all)));
  act(view, "copy", () => made((all) => copy(app, text, all)));
  act(view, "save", () => save(app));
  tieCode(app, view);
}

/** Ties the field that opens a saved sheet; what reads it is loaded then. */
export function tieOpen(app: App, view: HTMLElement): void {
  const field = view.querySelector<HTMLInputElement>("#planner-file") as HTMLInputElement;
  field.addEventListener("change", () => ask(app, "keelpathAsides", (asides) => asides.openFile(app, view, field)));
  tieTyped(app, view);
}
