// What would change an ending: the browser's copy of builder/tree/changes.go,
// which is the reference. Like the walker it knows no page.

import { Tables, refused } from "../sums/quantity";
import { Answers, Known, SKIP, Step, Table, TableAnswer, TableMeasure, TableRow, amount, entry, isSkip, learn, refusal, walk, wayOf, workOut } from "./walker";

/** One answer that, changed alone, leads elsewhere: to an ending, or to a question that waits. */
export interface Change {
  question: string;
  /** What is chosen instead; of several, the one ticked or no longer ticked; or SKIP. */
  answer?: string;
  /** The whole answer then. */
  chosen?: string[];
  /** Of a measure: every amount in it leads there. In canonical units. */
  range?: { from: number; to: number };
  ending?: string;
  open?: string;
}

interface Changer {
  table: Table;
  answers: Answers;
  units: Tables | undefined;
  ending: string;
  known: Known;
  /** Answers that are not taken; a changed path that meets one is no change. */
  bad: { [question: string]: boolean };
  /** Amounts of the answers, read once: a long measure is followed thousands of times. */
  read: { [question: string]: number };
}

/** Question by question along the path, each single other answer that leads elsewhere while all others stay. */
export function changes(table: Table, answers: Answers, units?: Tables): Change[] {
  const path = walk(table, answers, units);
  const out: Change[] = [];
  const c: Changer = { table, answers, units, ending: path.ending, known: { values: {}, amounts: {} }, bad: {}, read: {} };
  for (const id of Object.keys(answers)) readOnce(c, id, answers[id] as string[]);
  for (const step of path.ending ? path.steps : []) {
    const row = entry(table.questions, step.question) as TableRow;
    out.push(...(row.measure ? ofAmounts(c, row, step.question, row.measure) : ofAnswers(c, row, step)));
    if (row.skip && !isSkip(row, step.chosen)) out.push(...chosen(c, row, step.question, SKIP, [SKIP]));
    learn(table, row, step.question, step.chosen, c.known, units);
  }
  return out;
}

function readOnce(c: Changer, id: string, given: string[]): void {
  const row = entry(c.table.questions, id);
  if (!row) return;
  if (refusal(row, id, given, c.units)) c.bad[id] = true;
  else if (row.measure && !isSkip(row, given)) {
    const v = amount(row.measure, given[0] as string, c.units);
    if (!refused(v)) c.read[id] = v.value;
  }
}

function ofAnswers(c: Changer, row: TableRow, step: Step): Change[] {
  const out: Change[] = [];
  for (const a of row.answers || []) {
    const ids = instead(row, step.chosen, a);
    if (ids.length) out.push(...chosen(c, row, step.question, a.id, ids));
  }
  return out;
}

/** The answer in which one alone is changed: it alone where one is taken, else ticked or no longer ticked. */
function instead(row: TableRow, now: string[], a: TableAnswer): string[] {
  const on = now.indexOf(a.id) >= 0;
  if (!row.any || a.alone || isSkip(row, now)) return on ? [] : [a.id];
  return (row.answers || []).filter((o) => !o.alone && (o === a ? !on : now.indexOf(o.id) >= 0)).map((o) => o.id);
}

function chosen(c: Changer, row: TableRow, question: string, answer: string, ids: string[]): Change[] {
  const known = fork(c.known);
  learn(c.table, row, question, ids, known, c.units);
  return elsewhere(c, { question, answer, chosen: ids }, row, ids, known);
}

/** Neighbouring amounts that lead to one place are one range. */
function ofAmounts(c: Changer, row: TableRow, question: string, m: TableMeasure): Change[] {
  const out: Change[] = [];
  const first = Math.round(m.from / m.step);
  let last: Change | undefined;
  for (let i = 0; i <= Math.round((m.to - m.from) / m.step); i++) {
    const at = Math.round((first + i) * m.step * 1e9) / 1e9;
    const known = fork(c.known);
    known.values[question] = at;
    workOut(c.table, known);
    const here: Change | undefined = elsewhere(c, { question, range: { from: at, to: at } }, row, [""], known)[0];
    if (here && last && last.range && here.ending === last.ending && here.open === last.open) {
      last.range.to = at;
      continue;
    }
    if (here) out.push(here);
    last = here;
  }
  return out;
}

function fork(known: Known): Known {
  return { values: { ...known.values }, amounts: {} };
}

/** Follows a changed answer; the change with where it leads, or nothing where that is the same ending. */
function elsewhere(c: Changer, change: Change, row: TableRow, ids: string[], known: Known): Change[] {
  let at = wayOf(row, ids, known.values).go;
  for (let most = Object.keys(c.table.questions).length; most > 0; most--) {
    if (entry(c.table.endings, at)) return at === c.ending ? [] : [{ ...change, ending: at }];
    const next = entry(c.table.questions, at);
    if (!next) return [];
    const given = entry(c.answers, at);
    if (!given) return [{ ...change, open: at }];
    if (entry(c.bad, at)) return [];
    const value = entry(c.read, at);
    if (value === undefined) learn(c.table, next, at, given, known, c.units);
    else {
      known.values[at] = value;
      workOut(c.table, known);
    }
    at = wayOf(next, given, known.values).go;
  }
  return [];
}
