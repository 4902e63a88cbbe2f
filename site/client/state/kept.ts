// What is kept of a reader's visit: in this page's memory, in this tab while it
// is open, and in a file if the reader saves one. All three hold the same thing.

import { Data } from "./data";
import { refused } from "../sums/quantity";
import { Answers, TableRow, addOnce, amount, entry, isSkip, walk } from "../walk/walker";

/** A question of the reader's own. */
export interface Own {
  id: string;
  ask: string;
  /** The amounts that a figure made it with, in canonical units, by "tree/question"; sheets of before have none. */
  of?: { [question: string]: number };
}

/** What became of a question at the visit. */
export type Mark = "answered" | "later" | "write";

/** The sheet turned over: what was said at the visit. */
export interface Visit {
  marks: { [id: string]: Mark };
  replies: { [id: string]: string };
  decided: string;
  tries: string;
  meet: string;
}

export interface Kept {
  /** Trees the reader began, in that order. */
  taken: string[];
  /** Trees the reader chose and has not begun. */
  waiting: string[];
  answers: { [tree: string]: Answers };
  /** Prompts the reader put on (true) or took off (false) against what came up. */
  picks: { [prompt: string]: boolean };
  stars: string[];
  own: Own[];
  /** Prompts in the reader's own order; those not named come after them. */
  order: string[];
  /** A prompt in the reader's own words. */
  reworded: { [prompt: string]: string };
  /** What a normal day should look like. */
  day: string;
  /** Whether the fold of further prompts is open. */
  moreOpen: boolean;
  /** How the sheet prints: in large type, with the answers, with room for the visit. */
  large: boolean;
  told: boolean;
  back: boolean;
  visit: Visit;
}

export function nothing(): Kept {
  return {
    taken: [], waiting: [], answers: {}, picks: {}, stars: [], own: [], order: [], reworded: {}, day: "",
    moreOpen: false, large: false, told: false, back: false,
    visit: { marks: {}, replies: {}, decided: "", tries: "", meet: "" },
  };
}

/** Whether a sheet holds nothing of the reader's; how it prints does not count. */
export function holdsNothing(kept: Kept): boolean {
  const print = { moreOpen: false, large: false, told: false, back: false };
  return JSON.stringify({ ...kept, ...print }) === JSON.stringify(nothing());
}

const FORM = "keelpath-sheet-";
const VERSION = 2;

/**
 * What a sheet of an earlier version becomes in the one after it. Whoever changes
 * what a sheet holds raises VERSION and adds a step here, and nowhere else.
 */
const STEPS: { [from: number]: (kept: Fields) => Fields } = {
  // Topics lost their own questions about safety to a screen that is never saved, so those answers are left out.
  1: (kept) => kept,
};

/** A text that opens again on this page, or on a page with the same trees. */
export function write(kept: Kept, data: Data): string {
  return JSON.stringify({ form: FORM + VERSION, version: data.edition.version || "", kept });
}

/** Longest question or day in the reader's own words, and longest note of what was said, in characters. */
export const MOST_ASKED = 500;
export const MOST_SAID = 2000;

/** The length of a text as people count it; an emoji is no two characters. */
export function letters(text: string): number {
  return Array.from(text).length;
}

/** A text on one line. */
export function oneLine(text: string): string {
  return text.trim().replace(/\s+/g, " ");
}

/** More stars than this would star nothing. */
export const MOST_STARS = 3;

/** More questions of one's own are more than a visit can hold. */
export const MOST_OWN = 100;

/** A whole sheet with every question answered at length is smaller than this, in characters. */
export const LARGEST = 500000;

/** What of a saved sheet this page cannot take. */
export type LeftOut = "answers" | "units" | "questions" | "words";

export interface Opened {
  kept: Kept;
  /** It was saved by an earlier version. */
  older: boolean;
  left: LeftOut[];
}

/** Why a text is not opened. */
export interface NotOpened {
  refused: "large" | "other" | "newer" | "empty" | "unknown";
}

/**
 * Reads such a text. Whatever this page's trees do not know is left out, for a
 * clinic may have changed them; what is left out is told.
 */
export function read(text: string, data: Data): Opened | NotOpened {
  if (text.length > LARGEST) return { refused: "large" };
  const whole = parsed(text);
  const from = versionOf(whole["form"]);
  if (!from) return { refused: "other" };
  if (from > VERSION) return { refused: "newer" };
  const given = brought(object(whole["kept"]), from);
  const left: LeftOut[] = [];
  const kept = sound(given, data, (what) => addOnce(left, [what]));
  if (holdsNothing(kept)) return { refused: left.length ? "unknown" : "empty" };
  return { kept, older: from < VERSION, left };
}

function parsed(text: string): Fields {
  try {
    return object(JSON.parse(text));
  } catch {
    return {};
  }
}

/** The version that a form names; 0 where it names none. */
function versionOf(form: unknown): number {
  const found = typeof form === "string" && /^keelpath-sheet-([1-9]\d{0,3})$/.exec(form);
  return found ? Number(found[1]) : 0;
}

function brought(kept: Fields, from: number): Fields {
  for (let v = from; v < VERSION; v++) kept = (STEPS[v] as (kept: Fields) => Fields)(kept);
  return kept;
}

function sound(from: Fields, data: Data, leave: (what: LeftOut) => void): Kept {
  const own = ownOf(array(from["own"]), data, leave);
  const idOf = (was: string): string => {
    const mine = own.find((o) => o.was === was);
    if (mine) return mine.id;
    return entry(data.prompts, was) ? was : "";
  };
  const here = (ids: unknown): string[] => once(array(ids).map((id) => idOf(plain(id))).filter((id) => id));
  const named = <T>(fields: unknown, take: (value: unknown) => T | undefined): { [id: string]: T } => {
    const out: { [id: string]: T } = {};
    for (const was of Object.keys(object(fields))) {
      const value = take(object(fields)[was]);
      const id = idOf(was);
      if (value !== undefined && id) out[id] = value;
      else if (value !== undefined) leave("questions");
    }
    return out;
  };
  const asked = (x: unknown): string => words(x, MOST_ASKED, leave);
  const said = (x: unknown): string => words(x, MOST_SAID, leave);
  const visit = object(from["visit"]);
  return {
    taken: trees(from["taken"], data, leave),
    waiting: trees(from["waiting"], data, leave),
    answers: walkable(object(from["answers"]), data, leave),
    picks: named(from["picks"], (v) => (typeof v === "boolean" ? v : undefined)),
    stars: here(from["stars"]).slice(0, MOST_STARS),
    own: own.map(({ was, ...o }) => o),
    order: here(from["order"]),
    reworded: named(from["reworded"], (v) => oneLine(asked(v)) || undefined),
    day: asked(from["day"]),
    moreOpen: from["moreOpen"] === true, large: from["large"] === true, told: from["told"] === true, back: from["back"] === true,
    visit: {
      marks: named(visit["marks"], (v) => (v === "answered" || v === "later" || v === "write" ? v : undefined)),
      replies: named(visit["replies"], (v) => said(v) || undefined),
      decided: said(visit["decided"]), tries: said(visit["tries"]), meet: said(visit["meet"]),
    },
  };
}

function ownOf(given: unknown[], data: Data, leave: (what: LeftOut) => void): (Own & { was: string })[] {
  if (given.length > MOST_OWN) leave("words");
  return given.slice(0, MOST_OWN).map(object)
    .map((o) => ({ ask: oneLine(words(o["ask"], MOST_ASKED, leave)), was: plain(o["id"]), ...amountsOf(object(o["of"]), data) }))
    .filter((o) => o.ask)
    .map((o, i) => ({ id: `own ${i + 1}`, ...o }));
}

/** The amounts that a question was made with, where the questions they answer are still here. */
function amountsOf(given: Fields, data: Data): { of?: { [question: string]: number } } {
  const of: { [question: string]: number } = {};
  for (const tree of data.trees) {
    for (const q of Object.keys(tree.questions)) {
      const x = entry(given, `${tree.id}/${q}`);
      if (typeof x === "number" && (entry(tree.questions, q) as TableRow).measure) of[`${tree.id}/${q}`] = x;
    }
  }
  return Object.keys(of).length ? { of } : {};
}

function trees(given: unknown, data: Data, leave: (what: LeftOut) => void): string[] {
  const known = array(given).map(plain).filter((id) => data.trees.some((t) => t.id === id));
  if (known.length < array(given).length) leave("answers");
  return once(known);
}

/**
 * Answers that lead along a tree; a tree whose answers no longer do begins anew. An
 * amount without its unit, as older sheets may have, is not guessed: its question
 * waits to be asked again.
 */
function walkable(from: Fields, data: Data, leave: (what: LeftOut) => void): { [tree: string]: Answers } {
  const out: { [tree: string]: Answers } = {};
  for (const id of Object.keys(from)) if (!data.trees.some((t) => t.id === id)) leave("answers");
  for (const tree of data.trees) {
    const given = object(entry(from, tree.id));
    const answers: Answers = {};
    for (const q of Object.keys(given)) {
      const row = entry(tree.questions, q);
      const chosen = array(given[q]);
      if (!row || !short(chosen, row)) leave("answers");
      else if (bare(row, chosen.map(plain), data)) leave("units");
      else answers[q] = chosen.map(plain);
    }
    try {
      walk(tree, answers, data.units);
      if (Object.keys(answers).length) out[tree.id] = answers;
    } catch {
      leave("answers"); // they are another edition's
    }
  }
  return out;
}

/** Longest answer of one's own: an amount as a person types it. */
export const LONGEST_AMOUNT = 60;

/** Whether these can be answers: no more than there are, and none that would take long to read. */
function short(chosen: unknown[], row: TableRow): boolean {
  return chosen.length <= Math.max(1, (row.answers || []).length) && chosen.every((id) => plain(id).length <= LONGEST_AMOUNT);
}

function bare(row: TableRow, chosen: string[], data: Data): boolean {
  if (!row.measure || !chosen.length || isSkip(row, chosen)) return false;
  const v = amount(row.measure, chosen[0] as string, data.units);
  return refused(v) && !!v.choices;
}

interface Fields {
  [key: string]: unknown;
}

function object(x: unknown): Fields {
  return x && typeof x === "object" && !Array.isArray(x) ? (x as Fields) : {};
}

function array(x: unknown): unknown[] {
  return Array.isArray(x) ? x : [];
}

function plain(x: unknown): string {
  return typeof x === "string" ? x : "";
}

/** A text of the reader's own, whole; one that is too long is left out and not cut. */
function words(x: unknown, most: number, leave: (what: LeftOut) => void): string {
  if (letters(plain(x)) <= most) return plain(x);
  leave("words");
  return "";
}

function once(ids: string[]): string[] {
  const out: string[] = [];
  addOnce(out, ids);
  return out;
}
