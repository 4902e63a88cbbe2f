// One question a screen. Choosing never moves the page; only Next does.

import { units } from "../state/amounts";
import { App, standing } from "../state/app";
import { placeFigure } from "./beside";
import { Box } from "./box";
import { act, clone, fill, inputs, slot, submit, ticked } from "../page/dom";
import { Question } from "../state/data";
import { showProblem } from "../page/problem";
import { Screen } from "../state/screens";
import { after, askedHere, before, missing, previous } from "../state/steps";
import { showTrail } from "./trail";
import { SKIP, entry, left } from "../walk/walker";
import * as words from "../words/words";

export function questionView(app: App, screen: Screen): HTMLElement {
  const tree = screen.tree as string;
  const id = screen.question as string;
  const table = app.state.tree(tree);
  const question = entry(table.questions, id) as Question;
  const steps = before(app.state.path(tree).steps, id);

  const view = clone("view-question");
  fill(view, "tree", table.title);
  fill(view, "left", words.remaining(left(table, id)));
  showTrail(app, view, tree, steps);
  placeQuestion(view, tree, id);
  prefill(view, app.state.ticked(tree, id));
  keepAlone(view);
  const box = boxOf(app, view, question);
  placeFigure(app, view, screen, box);

  const leave = (chosen: string[]): void => {
    app.state.answer(tree, id, chosen);
    app.go(screen.change ? standing(app.state, tree) : after(app.state, tree, id));
  };
  submit(view.querySelector("form") as HTMLElement, () => {
    const text = box ? box.text() : "";
    const wrong = box && text ? box.wrong() : "";
    const chosen = text ? [text] : ticked(view);
    if (wrong) showProblem(view, wrong);
    else if (chosen.length) leave(chosen);
    else showProblem(view, missing(question));
  });
  act(view, "back", () => app.back(previous(askedHere(app.state, tree, steps), tree)));
  act(view, "skip", () => leave([SKIP])).hidden = !question.skip;
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

function boxOf(app: App, view: HTMLElement, question: Question): Box | undefined {
  const field = written(view);
  return field && question.measure ? new Box(view, field, question.measure, units(app.state)) : undefined;
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
