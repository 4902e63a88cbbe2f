// One question a screen. Choosing never moves the page; only Next does.

import { act, clone, fill, inputs, slot, submit, ticked } from "../page/dom";
import { showProblem } from "../page/problem";
import { Tables } from "../types/quantity";
import { SKIP, entry, left } from "../walk/walker";
import * as words from "../words/words";
import { Box } from "./box";
import { before, missing } from "./steps";
import { showTrail } from "./trail";
import { Question } from "./tree";
import { Walk } from "./walk";

export function questionView(walk: Walk, id: string): HTMLElement {
  const tree = walk.tree;
  const question = entry(tree.questions, id) as Question;
  const steps = before(walk.path().steps, id);

  const view = clone("view-question");
  fill(view, "tree", tree.title);
  fill(view, "left", words.remaining(left(tree, id)));
  showTrail(walk, view, steps);
  placeQuestion(view, tree.id, id);
  prefill(view, walk.ticked(id));
  keepAlone(view);
  const box = boxOf(walk, view, question);
  if (walk.beside) walk.beside(view, box);

  submit(view.querySelector("form") as HTMLElement, () => {
    const text = box ? box.text() : "";
    const wrong = box && text ? box.wrong() : "";
    const chosen = text ? [text] : ticked(view);
    if (wrong) showProblem(view, wrong);
    else if (chosen.length) walk.answer(id, chosen);
    else showProblem(view, missing(question));
  });
  act(view, "back", () => walk.back(steps));
  act(view, "skip", () => walk.answer(id, [SKIP])).hidden = !question.skip;
  return view;
}

/** Puts the question's own markup in, with the place for a problem right above its answers. */
function placeQuestion(view: HTMLElement, tree: string, id: string): void {
  const body = clone(`question-${tree}-${id}`);
  const answers = body.querySelector(".entry, .answers") as HTMLElement;
  const problem = slot(view, "problem");
  slot(view, "question").appendChild(body);
  (answers.parentElement as HTMLElement).insertBefore(problem, answers);
}

function prefill(view: HTMLElement, chosen: string[]): void {
  for (const input of inputs(view)) input.checked = chosen.indexOf(input.value) >= 0;
  const field = written(view);
  if (field && !ticked(view).length && chosen[0] !== SKIP) field.value = chosen[0] || "";
}

/** The place to write an amount, in a question that takes one. */
function written(view: HTMLElement): HTMLInputElement | null {
  return view.querySelector<HTMLInputElement>(".entry input");
}

function boxOf(walk: Walk, view: HTMLElement, question: Question): Box | undefined {
  const field = written(view);
  return field && question.measure ? new Box(view, field, question.measure, walk.units as Tables) : undefined;
}

/** An answer that stands alone unticks the others, and they untick it. */
function keepAlone(view: HTMLElement): void {
  const all = inputs(view);
  const alone = (i: HTMLInputElement): boolean => i.hasAttribute("data-alone");
  for (const input of all) {
    input.addEventListener("change", () => {
      if (!input.checked || input.type === "radio") return;
      for (const other of all) if (other !== input && (alone(input) || alone(other))) other.checked = false;
    });
  }
}
