// The trail: earlier answers of a tree, each of which can be changed.

import { said } from "../state/amounts";
import { App } from "../state/app";
import { act, clone, fill, make, slot, unseen } from "../page/dom";
import { Question } from "../state/data";
import { Step, entry } from "../walk/walker";
import * as words from "../words/words";

/** Fills a view's trail with steps; hides it where there are none yet. */
export function showTrail(app: App, view: HTMLElement, tree: string, steps: Step[]): void {
  const trail = slot(view, "trail");
  const list = slot(trail, "steps");
  trail.hidden = !steps.length;
  for (const step of steps) list.appendChild(item(app, tree, step));
}

function item(app: App, tree: string, step: Step): HTMLElement {
  const question = entry(app.state.tree(tree).questions, step.question) as Question;
  const li = clone("part-step");
  fill(li, "asked", question.text);
  putAnswers(slot(li, "answered"), said(app.state, question, step.chosen));
  if (app.state.toldBefore(tree, step.question)) slot(li, "answered").appendChild(make("small", words.toldBefore));
  const button = act(li, "change", () => app.go({ view: "question", tree, question: step.question, change: true }));
  button.appendChild(unseen(words.change(question.text)));
  return li;
}

function putAnswers(place: HTMLElement, texts: string[]): void {
  for (const text of texts) place.appendChild(make("span", text));
}
