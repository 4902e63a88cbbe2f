// Amounts as the page says them: what the reader measured, and what was worked
// out from it.

import { State } from "./state";
import { Like, Question } from "./data";
import { Tables, Value, refused, show } from "./quantity";
import { SKIP, amount, entry } from "./walker";
import * as words from "./words";

/** The table of units; a page on which something is measured has one. */
export function units(state: State): Tables {
  return state.data.units as Tables;
}

/** What the reader answered, in words. */
export function said(state: State, question: Question, chosen: string[]): string[] {
  if (chosen.length === 1 && chosen[0] === SKIP && question.skip) return [words.skipped];
  const m = question.measure;
  if (!m) return question.answers.filter((a) => chosen.indexOf(a.id) >= 0).map((a) => a.text);
  const typed = chosen[0] as string;
  const like = (m.likes || []).find((l: Like) => l.id === typed);
  if (like) return [like.text];
  const v = amount(m, typed, units(state));
  return refused(v) ? [] : [show(units(state), v, m)];
}

/** Fills the gaps of an ending's texts. Where an amount is not known, words stand for it. */
export function fillAmounts(state: State, root: ParentNode, tree: string): void {
  const known = state.path(tree).amounts || {};
  for (const gap of Array.from(root.querySelectorAll<HTMLElement>("[data-amount]"))) {
    const id = gap.getAttribute("data-amount") as string;
    const v = entry(known, id);
    const other = gap.getAttribute("data-else");
    if (v) gap.textContent = worded(state, tree, id, v);
    else if (other) gap.textContent = other;
  }
}

function worded(state: State, tree: string, id: string, v: Value): string {
  const question = entry(state.tree(tree).questions, id);
  return show(units(state), v, question && question.measure);
}
