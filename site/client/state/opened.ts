// Reads what was kept of a reader's visit. It is loaded with the sheet, for only a reader who has
// been here before needs it.

import { Data } from "./data";
import { Kept, LARGEST, LeftOut, MOST_ASKED, MOST_OWN, MOST_SAID, MOST_STARS, NotOpened, Opened, Own, VERSION, holdsNothing, letters, oneLine } from "./kept";
import { refused } from "../sums/quantity";
import { Answers, TableRow, addOnce, amount, entry, isSkip, walk } from "../walk/walker";

/**
 * What a sheet of an earlier version becomes in the one after it. Whoever changes
 * what a sheet holds raises VERSION and adds a step here, and nowhere else.
 */
const STEPS: { [from: number]: (kept: Fields) => Fields } = {
  // Topics lost their own questions about safety to a screen that is never saved, so those answers are left out.
  1: (kept) => kept,
};

/**
 * Reads such a text, once the trees that it names have come. Whatever this page's trees do not know is left out, for a
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
    taken: trees(from["taken"], data.trees, leave),
    waiting: trees(from["waiting"], data.topics, leave),
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
    ...unsaidOf(array(from["unsaid"]).map(plain)),
    voice: plain(from["voice"]) || undefined, // one that the edition does not have is said in the reader's own
  };
}

/** What was taken off "About me", by names such as "tree/question/answer"; what is no such name is no longer told anyway. */
function unsaidOf(given: string[]): { unsaid?: string[] } {
  const unsaid = once(given.filter((id) => /^[a-z0-9-]+(\/[a-z0-9-]+){0,2}$/.test(id)));
  return unsaid.length ? { unsaid } : {};
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

function trees(given: unknown, from: { id: string }[], leave: (what: LeftOut) => void): string[] {
  const known = array(given).map(plain).filter((id) => from.some((t) => t.id === id));
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
