// One question a screen. One answer is a button, which answers and goes on; of several
// each is ticked, and "Go on" gathers them. An amount that is written goes on by "Go on" too.

import { act, clone, fill, inputs, slot, submit, ticked, unseen } from "../page/dom";
import { hideProblem, showProblem } from "../page/problem";
import { Tables } from "../types/quantity";
import { SKIP, entry, left } from "../walk/walker";
import * as words from "../words/words";
import { Box } from "./box";
import { nameTiles } from "./ground";
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
  const body = clone(`question-${tree.id}-${id}`);
  slot(view, "question").appendChild(body);
  const glossary = body.querySelector(".words");
  if (glossary) slot(view, "words").appendChild(glossary);
  nameTiles(body, question);
  tieButtons(walk, view, id);
  tieBoxes(view, walk.ticked(id));
  const box = boxOf(walk, view, id, question);
  slot(view, "go").hidden = !question.any && !box;
  if (walk.beside) walk.beside(view, box);

  submit(view, () => {
    const text = box ? box.text() : "";
    const wrong = box && text ? box.wrong() : "";
    const chosen = text ? [(box as Box).kept()] : ticked(view);
    if (wrong) showProblem(view, wrong);
    else if (chosen.length) walk.answer(id, chosen);
    else showProblem(view, missing(question));
  });
  act(view, "back", () => walk.back(steps));
  act(view, "skip", () => walk.answer(id, [SKIP])).hidden = !question.skip;
  return view;
}

/** A button answers and goes on. The one that was given before says so. */
function tieButtons(walk: Walk, view: HTMLElement, id: string): void {
  const given = walk.ticked(id);
  for (const button of Array.from(view.querySelectorAll<HTMLButtonElement>("button.row"))) {
    if (given.indexOf(button.value) >= 0) {
      button.classList.add("mine");
      (button.firstElementChild as Element).appendChild(unseen(words.yourAnswer()));
    }
    button.addEventListener("click", () => walk.answer(id, [button.value]));
  }
}

/** An answer that stands alone unticks the others, and they untick it. */
function tieBoxes(view: HTMLElement, given: string[]): void {
  const all = inputs(view);
  const alone = (i: HTMLInputElement): boolean => i.hasAttribute("data-alone");
  const show = (): void => all.forEach((i) => (i.parentElement as HTMLElement).classList.toggle("mine", i.checked));
  for (const input of all) {
    input.checked = given.indexOf(input.value) >= 0;
    input.addEventListener("change", () => {
      for (const other of all) if (input.checked && other !== input && (alone(input) || alone(other))) other.checked = false;
      hideProblem(view);
      show();
    });
  }
  show();
}

/** The place to write an amount, in a question that takes one, with what was written before. */
function boxOf(walk: Walk, view: HTMLElement, id: string, question: Question): Box | undefined {
  const field = view.querySelector<HTMLInputElement>(".entry input");
  if (!field || !question.measure) return undefined;
  const given = walk.ticked(id)[0] || "";
  const like = (question.measure.likes || []).some((l) => l.id === given);
  if (given !== SKIP && !like) field.value = given;
  return new Box(view, field, question.measure, walk.units as Tables);
}
