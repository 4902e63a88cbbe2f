// What a reader answered, and amounts in a tree's texts, in words.

import { Tables, Value, refused, show } from "../sums/quantity";
import { Path, SKIP, amount, entry } from "../walk/walker";
import * as words from "../words/words";
import { Like, Question, Tree } from "./tree";

/** What the reader answered, in words. */
export function said(question: Question, chosen: string[], units: Tables | undefined): string[] {
  if (chosen.length === 1 && chosen[0] === SKIP && question.skip) return [words.skipped];
  const m = question.measure;
  if (!m) return question.answers.filter((a) => chosen.indexOf(a.id) >= 0).map((a) => a.text);
  const typed = chosen[0] as string;
  const like = (m.likes || []).find((l: Like) => l.id === typed);
  if (like) return [like.text];
  const v = amount(m, typed, units);
  return refused(v) ? [] : [show(units as Tables, v, m)];
}

/** Fills the gaps of an ending's texts. Where an amount is not known, words stand for it. */
export function fillAmounts(root: ParentNode, tree: Tree, path: Path, units: Tables | undefined): void {
  for (const gap of Array.from(root.querySelectorAll<HTMLElement>("[data-amount]"))) {
    const id = gap.getAttribute("data-amount") as string;
    const v = entry(path.amounts || {}, id);
    const other = gap.getAttribute("data-else");
    if (v) gap.textContent = worded(tree, id, v, units as Tables);
    else if (other) gap.textContent = other;
  }
}

export function worded(tree: Tree, id: string, v: Value, units: Tables): string {
  const question = entry(tree.questions, id);
  return show(units, v, question && question.measure);
}
