// Amounts that the reader gave in any topic, and what questions of their own make of them.

import { State } from "./state";
import { Tables, Value, exact, refused, show } from "../sums/quantity";
import { Question } from "../tree/tree";
import { SKIP, amount, entry } from "../walk/walker";
import * as words from "../words/words";

/** The table of units; a page on which something is measured has one. */
export function units(state: State): Tables {
  return state.data.units as Tables;
}

/** The amount that the reader gave at a question, named "tree/question". */
export function amountAt(state: State, at: string): Value | undefined {
  const [tree, question] = at.split("/") as [string, string];
  const chosen = state.chosen(tree, question);
  if (!chosen.length || chosen[0] === SKIP) return undefined; // such a tree need not have come
  const row = entry(state.tree(tree).questions, question);
  if (!row || !row.measure) return undefined;
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
    if (v && Math.abs(exact(v) - (of[at] as number)) > 1e-9) now.push(show(units(state), v, (entry(state.tree(tree).questions, question) as Question).measure));
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
