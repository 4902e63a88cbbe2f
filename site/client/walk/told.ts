// What a reader has told: the browser's copy of the rules in builder/told, which
// is the reference and says what they are for. It knows no page, so a Go test can
// run it alone. Keep the language plain here for that test's sake.

import { DataFact } from "../types/publish";
import { Tables } from "../sums/quantity";
import { Answers, SKIP, Table, TableAnswer, TableRow, UNSURE, addOnce, entry, isSkip, walk } from "./walker";

export interface Facts {
  [fact: string]: DataFact;
}

/** What a reader has said in the topics taken so far. */
export interface Sitting {
  trees: Table[];
  facts: Facts;
  taken: string[];
  answers: { [tree: string]: Answers };
  /** Questions that told something where the reader was asked, "tree/question". */
  asked: string[];
  units?: Tables | undefined;
}

/** Where a fact was told, and what was typed there; empty for a fact without an amount. */
export interface Telling {
  tree: string;
  question: string;
  words: string;
}

export interface Told {
  [fact: string]: Telling;
}

/** Stands in a question for what was not told. */
export const BLANK = "___";

/** The facts that a text has gaps for: "My slope is {slope}." */
export function gaps(text: string): string[] {
  return (text.match(/\{[a-z0-9-]+\}/g) || []).map((gap) => gap.slice(1, -1));
}

/** The facts told on the paths of the topics taken, each where it was told first. */
export function told(s: Sitting): Told {
  const out: Told = {};
  for (const at of tellings(s)) {
    for (const f of by(rowOf(s, at.tree, at.question), chosenAt(s, at.tree, at.question) || [])) {
      if (!entry(out, f) && !others(s.facts, f).some((o) => !!entry(out, o))) out[f] = at;
    }
  }
  return out;
}

/** The questions on the paths that tell something: those asked first, then the others along the paths. */
function tellings(s: Sitting): Telling[] {
  const out: Telling[] = [];
  for (const id of s.taken) {
    for (const step of stepsOf(s, id)) {
      const row = rowOf(s, id, step.question);
      if (by(row, step.chosen).length) out.push(telling(id, step.question, row, step.chosen));
    }
  }
  const place = (t: Telling): number => {
    const i = s.asked.indexOf(nameOf(t));
    return i < 0 ? s.asked.length : i;
  };
  const placed = out.map((at, i) => ({ at, i, place: place(at) }));
  return placed.sort((a, b) => a.place - b.place || a.i - b.i).map((p) => p.at);
}

function stepsOf(s: Sitting, id: string): { question: string; chosen: string[] }[] {
  try {
    return walk(tableOf(s, id), entry(s.answers, id) || {}, s.units).steps;
  } catch {
    return []; // these answers are another edition's
  }
}

function telling(tree: string, question: string, row: TableRow, chosen: string[]): Telling {
  return { tree, question, words: row.measure ? (chosen[0] as string) : "" };
}

function nameOf(t: Telling): string {
  return `${t.tree}/${t.question}`;
}

/** The facts that cannot be true beside one. */
function others(facts: Facts, fact: string): string[] {
  const set = (entry(facts, fact) || { of: "" }).of;
  return set ? Object.keys(facts).filter((f) => f !== fact && (entry(facts, f) as DataFact).of === set) : [];
}

/** Whether what is answered at a question was told in another topic and carried over. */
export function before(s: Sitting, tree: string, question: string): boolean {
  return by(rowOf(s, tree, question), chosenAt(s, tree, question) || []).length > 0 && s.asked.indexOf(`${tree}/${question}`) < 0;
}

/** Takes a topic up and answers in it what was told before. */
export function begin(s: Sitting, tree: string): void {
  addOnce(s.taken, [tree]);
  fill(s, tree);
}

/** Answers the questions of a topic that have no answer yet. */
function fill(s: Sitting, tree: string): void {
  const known = told(s);
  const questions = tableOf(s, tree).questions;
  for (const q of Object.keys(questions)) {
    if (!chosenAt(s, tree, q)) put(s, tree, q, answerFrom(s, questions[q] as TableRow, known));
  }
}

/** Notes an answer; null takes the one that is there away. */
function put(s: Sitting, tree: string, question: string, chosen: string[] | null): void {
  const answers = entry(s.answers, tree) || {};
  if (chosen) {
    answers[question] = chosen;
    s.answers[tree] = answers;
  } else delete answers[question];
}

/** The answer to a question that what was told comes to; null where that is not known. */
function answerFrom(s: Sitting, row: TableRow, known: Told): string[] | null {
  if (row.measure) {
    for (const f of row.tells || []) {
      const at = entry(known, f);
      if (at) return [wordsFor(s, row, at)];
    }
    return null;
  }
  for (const a of row.answers || []) if (asksFacts(row) && tells(a) && allTold(a, known)) return [a.id];
  return null;
}

/** A told amount as an answer to another measure: the same words, or what a like stands for. */
function wordsFor(s: Sitting, row: TableRow, at: Telling): string {
  const like = likeOf(rowOf(s, at.tree, at.question), at.words);
  const same = likeOf(row, at.words);
  if (!like || (same && same.is === like.is)) return at.words;
  return like.is;
}

function likeOf(row: TableRow, id: string): { is: string } | undefined {
  for (const like of (row.measure && row.measure.likes) || []) if (like.id === id) return like;
  return undefined;
}

/** Whether a question takes one answer, and each of its answers tells some fact, "not sure" aside. */
function asksFacts(row: TableRow): boolean {
  const answers = row.answers || [];
  return !row.measure && !row.any && answers.some(tells) && answers.every((a) => tells(a) || a.id === UNSURE);
}

function tells(a: TableAnswer): boolean {
  return (a.tells || []).length > 0;
}

function allTold(a: TableAnswer, known: Told): boolean {
  return (a.tells || []).every((f) => !!entry(known, f));
}

/** Notes an answer and carries it over to the other topics taken, also what it takes back. */
export function answer(s: Sitting, tree: string, question: string, chosen: string[]): void {
  const row = rowOf(s, tree, question);
  const now = by(row, chosen);
  const gone = denied(row, chosenAt(s, tree, question) || [], chosen).filter((f) => now.indexOf(f) < 0);
  const known: Told = {};
  for (const f of now) {
    known[f] = telling(tree, question, row, chosen);
    addOnce(gone, others(s.facts, f));
  }
  put(s, tree, question, chosen);
  const name = `${tree}/${question}`;
  const at = s.asked.indexOf(name);
  if (at >= 0) s.asked.splice(at, 1);
  if (now.length) s.asked.push(name);
  for (const other of s.taken) {
    const questions = tableOf(s, other).questions;
    for (const q of Object.keys(questions)) if (other !== tree || q !== question) carry(s, other, q, questions[q] as TableRow, known, gone);
  }
  for (const other of s.taken) fill(s, other);
}

/** The facts that an answer takes back. */
function denied(row: TableRow, old: string[], chosen: string[]): string[] {
  const about = row.any || asksFacts(row);
  if (row.measure || (about && (isSkip(row, chosen) || chosen.indexOf(UNSURE) >= 0))) return by(row, old);
  return about ? can(row) : [];
}

/** Brings an answer that was given elsewhere into a question that is answered. */
function carry(s: Sitting, tree: string, question: string, row: TableRow, known: Told, gone: string[]): void {
  const chosen = chosenAt(s, tree, question);
  if (!chosen) return;
  const lost = by(row, chosen).some((f) => gone.indexOf(f) >= 0);
  const to = answerFrom(s, row, known);
  if (row.any && !isSkip(row, chosen)) put(s, tree, question, retick(row, chosen, known, gone));
  else if (to && (lost || row.measure)) put(s, tree, question, to);
  else if (lost) put(s, tree, question, row.measure ? [SKIP] : null);
}

/** Ticks what was told elsewhere and unticks what was taken back; null where nothing is left. */
function retick(row: TableRow, chosen: string[], known: Told, gone: string[]): string[] | null {
  const on = (row.answers || []).filter((a) => {
    const was = chosen.indexOf(a.id) >= 0;
    return tells(a) ? (was || allTold(a, known)) && !(a.tells || []).some((f) => gone.indexOf(f) >= 0) : was;
  });
  const together = on.filter((a) => !a.alone);
  const left = together.length ? together : on.slice(-1);
  return left.length ? left.map((a) => a.id) : null;
}

/** Makes answers that came from elsewhere agree: where two topics differ, the first one counts. */
export function settle(s: Sitting): void {
  for (let most = tellings(s).length; most > 0 && settleOne(s); most--);
  for (const tree of s.taken) fill(s, tree);
  const asked: string[] = [];
  const known: string[] = [];
  for (const at of tellings(s)) {
    const row = rowOf(s, at.tree, at.question);
    const facts = by(row, chosenAt(s, at.tree, at.question) || []);
    const own = !row.measure && !asksFacts(row);
    if (own || s.asked.indexOf(nameOf(at)) >= 0 || facts.some((f) => known.indexOf(f) < 0)) asked.push(nameOf(at));
    addOnce(known, facts);
  }
  s.asked.splice(0, s.asked.length, ...asked);
}

/** Mends the first answer that does not agree with what was told before it. */
function settleOne(s: Sitting): boolean {
  const known = told(s);
  for (const at of tellings(s)) {
    const to = answerFrom(s, rowOf(s, at.tree, at.question), known);
    if (to && to[0] !== (chosenAt(s, at.tree, at.question) as string[])[0]) {
      put(s, at.tree, at.question, to);
      return true;
    }
  }
  return false;
}

/** The answers to a question that takes several which have been told. */
export function ticks(row: TableRow, is: (fact: string) => boolean): string[] {
  return (row.answers || []).filter((a) => row.any && tells(a) && (a.tells || []).every(is)).map((a) => a.id);
}

/** The facts that an accepted answer tells. */
export function by(row: TableRow, chosen: string[]): string[] {
  if (!chosen.length || isSkip(row, chosen)) return [];
  if (row.measure) return row.tells || [];
  const out: string[] = [];
  for (const a of row.answers || []) if (chosen.indexOf(a.id) >= 0) addOnce(out, a.tells || []);
  return out;
}

/** All facts that answers to a question can tell. */
function can(row: TableRow): string[] {
  const out = (row.tells || []).slice();
  for (const a of row.answers || []) addOnce(out, a.tells || []);
  return out;
}

function tableOf(s: Sitting, id: string): Table {
  for (const t of s.trees) if (t.id === id) return t;
  throw new Error(`no tree "${id}"`);
}

function rowOf(s: Sitting, tree: string, question: string): TableRow {
  return entry(tableOf(s, tree).questions, question) as TableRow;
}

function chosenAt(s: Sitting, tree: string, question: string): string[] | undefined {
  return entry(entry(s.answers, tree) || {}, question);
}
