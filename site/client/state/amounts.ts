// Amounts as the page says them: what the reader measured, and what was worked
// out from it.

import { State } from "./state";
import { Like, Question } from "./data";
import { Tables, Value, exact, refused, show } from "../sums/quantity";
import { SKIP, amount, entry } from "../walk/walker";
import * as words from "../words/words";

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

/** The amount that the reader gave at a question, named "tree/question". */
export function amountAt(state: State, at: string): Value | undefined {
  const [tree, question] = at.split("/") as [string, string];
  const row = entry(state.tree(tree).questions, question);
  const chosen = state.chosen(tree, question);
  if (!row || !row.measure || !chosen.length || chosen[0] === SKIP) return undefined;
  const v = amount(row.measure, chosen[0] as string, units(state));
  return refused(v) ? undefined : v;
}

/** What a figure's question does not say: answers that are no longer the amounts it was made with. */
export function since(state: State, id: string): string {
  const own = state.kept.own.find((o) => o.id === id);
  const of = (own && own.of) || {};
  const now: string[] = [];
  for (const at of Object.keys(of)) {
    const [tree, question] = at.split("/") as [string, string];
    const v = amountAt(state, at);
    const m = (entry(state.tree(tree).questions, question) as Question).measure;
    if (v && Math.abs(exact(v) - (of[at] as number)) > 1e-9) now.push(show(units(state), v, m));
    else if (state.chosen(tree, question)[0] === SKIP) return words.numberSkipped;
  }
  return now.length ? words.numberNow(now) : "";
}

/** The reader's own questions that are made with another number than the reader tells now. */
export function outdated(state: State): string[] {
  return state.kept.own.filter((o) => since(state, o.id)).map((o) => `${o.id} ${since(state, o.id)}`);
}

/** A question as it is taken along, with what it does not say behind it. */
export function askWhole(state: State, id: string): string {
  const behind = since(state, id);
  return state.ask(id) + (behind && ` (${behind})`);
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
