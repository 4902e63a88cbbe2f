// The trail: earlier answers of a tree, each of which can be changed.

import { act, clone, fill, make, slot, unseen } from "../page/dom";
import { Step, entry } from "../walk/walker";
import * as words from "../words/words";
import { said } from "./said";
import { Question } from "./tree";
import { Walk } from "./walk";

/** Fills a view's trail with steps; hides it where there are none yet. */
export function showTrail(walk: Walk, view: HTMLElement, steps: Step[]): void {
  const trail = slot(view, "trail");
  const list = slot(trail, "steps");
  trail.hidden = !steps.length;
  fill(trail, "answers", words.answersGiven(steps.length));
  for (const step of steps) list.appendChild(item(walk, step));
}

function item(walk: Walk, step: Step): HTMLElement {
  const question = entry(walk.tree.questions, step.question) as Question;
  const li = clone("part-step");
  fill(li, "asked", question.text);
  putAnswers(slot(li, "answered"), said(question, step.chosen, walk.units));
  if (walk.toldBefore(step.question)) slot(li, "answered").appendChild(make("small", words.toldBefore));
  const button = act(li, "change", () => walk.change(step.question));
  button.appendChild(unseen(words.change(question.text)));
  return li;
}

function putAnswers(place: HTMLElement, texts: string[]): void {
  for (const text of texts) place.appendChild(make("span", text));
}
