// Where a question of a topic leads back and on. It looks at no page.

import { standing } from "./app";
import { Screen } from "./screens";
import { State } from "./state";
import { Step } from "../walk/walker";

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
