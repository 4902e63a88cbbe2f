// Where a question leads back and on, and what it says without an answer. It
// knows no page.

import { standing } from "./app";
import { Question } from "./data";
import { Screen } from "./screens";
import { State } from "./state";
import { Step } from "../walk/walker";
import * as words from "../words/words";

/** What is said where a question has no answer yet. */
export function missing(question: Question): string {
  let text = question.any ? words.noAnswerAny : words.noAnswer;
  if (question.measure) text = question.measure.likes ? words.noAmountLike : words.noAmount;
  return text + (question.skip ? words.orSkip : "");
}

/** The steps that come before a question; all of them where it is not yet answered. */
export function before(steps: Step[], id: string): Step[] {
  const at = steps.findIndex((s) => s.question === id);
  return at < 0 ? steps : steps.slice(0, at);
}

/** Steps without those that are answered by what another topic heard. */
export function askedHere(state: State, tree: string, steps: Step[]): Step[] {
  return steps.filter((s) => !state.toldBefore(tree, s.question));
}

/** The screen that follows an answered question: the next one that was not told in another topic. */
export function after(state: State, tree: string, id: string): Screen {
  const steps = state.path(tree).steps;
  const next = askedHere(state, tree, steps.slice(steps.findIndex((s) => s.question === id) + 1))[0];
  return next ? { view: "question", tree, question: next.question } : standing(state, tree);
}

/** The screen that a reader goes back to. */
export function previous(steps: Step[], tree: string): Screen {
  const last = steps[steps.length - 1];
  return last ? { view: "question", tree, question: last.question } : { view: "topics" };
}
