// The sheet's code on the page: where it is asked for, shown and typed. What makes
// and reads it is loaded then (codes.ts).

import { App } from "../state/app";
import { Carry } from "../carry/carry";
import { act, fill, slot } from "../page/dom";
import { copy } from "../sheet/files";
import { takeFragment } from "../page/fragment";
import { ask } from "./need";
import { hideProblem, showProblem } from "../page/problem";

const MARK = "#code=";

/** Ties the part of the sheet that makes a code, a link, and files for a clinic's records. */
export function tieCode(app: App, view: HTMLElement): void {
  const made = slot(view, "code-made");
  const code = view.querySelector<HTMLInputElement>("#planner-code") as HTMLInputElement;
  const link = view.querySelector<HTMLInputElement>("#planner-link") as HTMLInputElement;
  act(view, "code", () => {
    asked(app, (carry) => {
      const now = carry.makeCode(app.state, carry);
      code.value = now.code;
      fill(view, "own-left", now.leaves.join(" "));
      slot(view, "link-made").hidden = true;
      made.hidden = false;
      code.focus();
    });
  });
  act(view, "copy-code", () => copy(app, code, code.value));
  act(view, "link", () => {
    slot(view, "link-made").hidden = false;
    copy(app, link, (location.href.split("#")[0] as string) + MARK + encodeURIComponent(code.value));
  });
  slot(view, "share").addEventListener("toggle", () => asked(app, (carry) => carry.records(app, view, carry)), { once: true });
}

/** Ties the field that takes a code. */
export function tieTyped(app: App, view: HTMLElement): void {
  const field = view.querySelector<HTMLInputElement>("#planner-typed") as HTMLInputElement;
  act(view, "open-code", () => {
    hideProblem(view, "code-problem");
    asked(app, (carry) => carry.openCode(app, carry, field.value, (problem) => showProblem(view, problem, field, "code-problem")));
  });
  field.addEventListener("input", () => hideProblem(view, "code-problem"));
}

/** A code that a link brought. */
export function linkedCode(): string {
  const coded = takeFragment(MARK);
  try {
    return decodeURIComponent(coded);
  } catch {
    return coded; // cut off or changed: the code's own check will say so
  }
}

/** Opens it; a code that cannot be read is said to every reader, for there is no field to say it at. */
export function openLinked(app: App, code: string): void {
  asked(app, (carry) => carry.openCode(app, carry, code, (problem) => app.say(problem, true)));
}

function asked(app: App, then: (carry: Carry) => void): void {
  ask(app, "keelpathCarry", then);
}
