// The table walker: the browser's copy of the rules in builder/tree/walk.go,
// which is the reference. It knows no page, so a Go test can run it alone and
// compare every path. Keep the language plain here for that test's sake.

import { Table, TableAnswer, TableMeasure, TableRoute, TableRow } from "../types/tree";
import { Values, evaluate } from "../sums/formula";
import { Tables, Value, exact, read, refused } from "../sums/quantity";
import { entry } from "../sums/own";

export { entry };

export type { Table, TableAnswer, TableMeasure, TableRow };

/**
 * Question id to chosen answer ids; for a measure, what the reader typed or the
 * id of a like. A skipped question holds just SKIP.
 */
export interface Answers {
  [question: string]: string[];
}

export interface Step {
  question: string;
  chosen: string[];
}

/** How far a walk came. One of open and ending is set, the other is empty. */
export interface Path {
  steps: Step[];
  open: string;
  ending: string;
  cards: string[];
  /** Measures and worked-out values known at the ending, for showing in texts. */
  amounts?: { [id: string]: Value };
}

/** The answer "not sure", which formulas see as unknown. */
export const UNSURE = "unsure";

/** What a skipped question holds; no answer may have it as its id. */
export const SKIP = "skip";

/** Follows the answers from the start. Throws where Go's Walk gives an error. */
export function walk(table: Table, answers: Answers, units?: Tables): Path {
  const path: Path = { steps: [], open: "", ending: "", cards: [] };
  const known: Known = { values: {}, amounts: {} };
  let most = Object.keys(table.questions).length + 1;
  let at = table.start;
  for (; most > 0; most--) {
    if (entry(table.endings, at)) {
      path.ending = at;
      const amounts = shown(table, known);
      if (Object.keys(amounts).length) path.amounts = amounts;
      return path;
    }
    const row = entry(table.questions, at);
    if (!row) throw new Error(`tree "${table.id}" has no question or ending "${at}"`);
    const chosen = entry(answers, at);
    if (!chosen) {
      path.open = at;
      return path;
    }
    const wrong = refusal(row, at, chosen, units);
    if (wrong) throw new Error(wrong);
    learn(table, row, at, chosen, known, units);
    path.steps.push({ question: at, chosen: inOrder(row, chosen) });
    const way = wayOf(row, chosen, known.values);
    addOnce(path.cards, way.cards);
    at = way.go;
  }
  throw new Error(`tree "${table.id}" runs in a circle at "${at}"`);
}

/** Where accepted answers lead, and the cards they add. */
export function wayOf(row: TableRow, chosen: string[], values: Values): { go: string; cards: string[] } {
  const cards = cardsOf(row, chosen);
  const own = ownWay(row, chosen);
  const route = own ? undefined : routeOf(row, values);
  if (route) addOnce(cards, route.cards || []);
  return { go: own || (route ? route.go : row.go || ""), cards };
}

/** What the questions of a path so far have made known. */
export interface Known {
  /** By these, ways are decided: amounts are rounded to their steps. */
  values: Values;
  /** Of measures: as the reader wrote them. */
  amounts: { [id: string]: Value };
}

/** Notes accepted answers and works out values anew. Skipped and "not sure" stay unknown. */
export function learn(table: Table, row: TableRow, id: string, chosen: string[], known: Known, units?: Tables): void {
  if (!isSkip(row, chosen)) {
    const v = row.measure ? amount(row.measure, chosen[0] as string, units) : null;
    if (v && !refused(v)) {
      known.values[id] = v.value;
      known.amounts[id] = v;
    } else if (!row.measure && chosen.indexOf(UNSURE) < 0) known.values[id] = chosen;
  }
  workOut(table, known);
}

/** Works out the tree's values from what is known. */
export function workOut(table: Table, known: Known): void {
  for (const w of table.values || []) {
    const v = evaluate(w.is, known.values);
    if (v !== null) known.values[w.id] = v;
  }
}

/** The amounts to show. What is worked out comes from what the reader wrote, before any rounding to a step. */
function shown(table: Table, known: Known): Known["amounts"] {
  const out = { ...known.amounts };
  const values = { ...known.values };
  for (const id of Object.keys(out)) values[id] = exact(out[id] as Value);
  for (const w of table.values || []) {
    const v = (values[w.id] = evaluate(w.is, values));
    if (w.unit && typeof v === "number") out[w.id] = { kind: w.kind as Value["kind"], value: v, unit: w.unit };
  }
  return out;
}

/** The amount of an answer to a measure: a like's, or what was typed. */
export function amount(measure: TableMeasure, answer: string, units?: Tables): ReturnType<typeof read> {
  for (const like of measure.likes || []) if (like.id === answer) return like.value;
  if (!units) throw new Error("the page has no table of units");
  return read(units, answer, measure);
}

/** The first route whose condition is true, or the one without a condition. */
function routeOf(row: TableRow, values: Values): TableRoute | undefined {
  for (const r of row.routes || []) {
    if (r.if === undefined || evaluate(r.if, values) === true) return r;
  }
  return undefined;
}

/** The most questions that can still follow this one. */
export function left(table: Table, question: string): number {
  const row = entry(table.questions, question);
  return row ? row.left : 0;
}

/** What is wrong with the chosen answers; empty if the question takes them. */
export function refusal(row: TableRow, question: string, chosen: string[], units?: Tables): string {
  if (chosen.length === 0) return `question "${question}" is left without an answer`;
  if (row.measure) return refusedAmount(row, row.measure, question, chosen, units);
  for (let i = 0; i < chosen.length; i++) {
    const id = chosen[i] as string;
    if (chosen.indexOf(id) < i) return `question "${question}" is answered with "${id}" twice`;
    if (id === SKIP && row.skip) {
      if (chosen.length > 1) return `question "${question}" is both skipped and answered`;
      continue;
    }
    const answer = answerOf(row, id);
    if (!answer) return `question "${question}" has no answer "${id}"`;
    if (chosen.length === 1) continue;
    if (!row.any) return `question "${question}" takes one answer, and ${chosen.length} were given`;
    if (answer.alone) return `question "${question}": answer "${id}" cannot be given together with others`;
  }
  return "";
}

function refusedAmount(row: TableRow, measure: TableMeasure, question: string, chosen: string[], units?: Tables): string {
  if (chosen.length > 1) return `question "${question}" takes one answer, and ${chosen.length} were given`;
  if (isSkip(row, chosen)) return "";
  const v = amount(measure, chosen[0] as string, units);
  return refused(v) ? `question "${question}" does not take "${chosen[0]}": ${v.text}` : "";
}

/**
 * The way that the chosen answers have of their own: of the first, in the file's
 * order, that has one. Empty where routes, or the question's way, decide.
 */
function ownWay(row: TableRow, chosen: string[]): string {
  if (isSkip(row, chosen)) return row.skip as string;
  for (const answer of row.answers || []) {
    if (answer.go && chosen.indexOf(answer.id) >= 0) return answer.go;
  }
  return "";
}

function cardsOf(row: TableRow, chosen: string[]): string[] {
  const cards: string[] = [];
  for (const answer of row.answers || []) {
    if (answer.cards && chosen.indexOf(answer.id) >= 0) addOnce(cards, answer.cards);
  }
  return cards;
}

function inOrder(row: TableRow, chosen: string[]): string[] {
  if (isSkip(row, chosen)) return chosen;
  const out: string[] = [];
  for (const { id } of row.answers || []) if (chosen.indexOf(id) >= 0) out.push(id);
  return out.length ? out : chosen; // an amount
}

export function isSkip(row: TableRow, chosen: string[]): boolean {
  return chosen.length === 1 && chosen[0] === SKIP && !!row.skip;
}

function answerOf(row: TableRow, id: string): TableAnswer | undefined {
  for (const answer of row.answers || []) {
    if (answer.id === id) return answer;
  }
  return undefined;
}

/** Adds those of more that are not in list yet, and keeps the order. */
export function addOnce(list: string[], more: string[]): void {
  for (let i = 0; i < more.length; i++) {
    const id = more[i] as string;
    if (list.indexOf(id) < 0) list.push(id);
  }
}
