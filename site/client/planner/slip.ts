// The slip: the sheet as it grows, in the reader's own words. On a phone it is a line
// at the foot, on a wide screen a strip at the side.

import { App } from "../state/app";
import { make, slot } from "../page/dom";
import { UNSURE } from "../safety/safety";
import { said } from "../tree/said";
import { Question } from "../tree/tree";
import { SKIP, entry } from "../walk/walker";

/** How many lines the strip shows; the rest is on the sheet. */
const SHOWN = 7;

export function showSlip(app: App, root: HTMLElement, on: boolean): void {
  const slip = slot(root, "slip");
  const lines = on ? told(app) : [];
  slip.hidden = !lines.length;
  const place = slot(slip, "last");
  place.textContent = "";
  for (const line of lines.slice(-SHOWN)) place.appendChild(make("span", line));
}

/** What was answered, in the order of the topics taken; "not sure" and what was skipped say nothing. */
function told(app: App): string[] {
  const out: string[] = [];
  for (const id of app.state.kept.taken) {
    if (!app.state.data.trees.some((t) => t.id === id)) continue;
    for (const step of app.state.path(id).steps) {
      const question = entry(app.state.tree(id).questions, step.question) as Question;
      const says = question.answers.filter((a) => a.alone || a.id === UNSURE).map((a) => a.id);
      const chosen = step.chosen.filter((c) => c !== SKIP && says.indexOf(c) < 0);
      if (chosen.length) out.push(said(question, chosen, app.state.data.units).join(", "));
    }
  }
  return out;
}
