// What is kept of a reader's visit: in this page's memory, in this tab while it
// is open, and in a file if the reader saves one. All three hold the same thing.

import { Data } from "./data";
import { Answers, addOnce, entry, walk } from "./walker";

/** A question of the reader's own. */
export interface Own {
  id: string;
  ask: string;
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

const FORM = "keelpath-sheet-1";

/** A text that opens again on this page, or on a page with the same trees. */
export function write(kept: Kept, data: Data): string {
  return JSON.stringify({ form: FORM, version: data.edition.version || "", kept });
}

/** Longest text of a reader's own that is taken from a file. */
const LONGEST = 2000;

/**
 * Reads such a text; undefined where it is none. Whatever this page's trees do
 * not know is left out, for a clinic may have changed them.
 */
export function read(text: string, data: Data): Kept | undefined {
  let file: unknown;
  try {
    file = JSON.parse(text);
  } catch {
    return undefined;
  }
  const whole = object(file);
  return whole["form"] === FORM ? sound(object(whole["kept"]), data) : undefined;
}

function sound(from: Fields, data: Data): Kept {
  const trees = data.trees.map((t) => t.id);
  const known = (id: string): boolean => entry(data.prompts, id) !== undefined;
  const own = array(from["own"]).map(object).filter((o) => words(o["ask"]))
    .map((o, i) => ({ id: `own ${i + 1}`, ask: words(o["ask"]), was: words(o["id"]) }));
  const ownId = (id: string): string => (own.find((o) => o.was === id) || { id }).id;
  const here = (ids: unknown): string[] => once(array(ids).map(words).map(ownId)).filter((id) => known(id) || own.some((o) => o.id === id));
  const visit = object(from["visit"]);
  const named = <T>(fields: unknown, take: (value: unknown) => T | undefined): { [id: string]: T } => {
    const out: { [id: string]: T } = {};
    for (const id of Object.keys(object(fields))) {
      const value = take(object(fields)[id]);
      if (value !== undefined && here([id]).length) out[ownId(id)] = value;
    }
    return out;
  };
  return {
    taken: once(array(from["taken"]).map(words)).filter((id) => trees.indexOf(id) >= 0),
    waiting: once(array(from["waiting"]).map(words)).filter((id) => trees.indexOf(id) >= 0),
    answers: walkable(object(from["answers"]), data),
    picks: named(from["picks"], (v) => (typeof v === "boolean" ? v : undefined)),
    stars: here(from["stars"]).slice(0, 3),
    own: own.map((o) => ({ id: o.id, ask: o.ask })),
    order: here(from["order"]),
    reworded: named(from["reworded"], (v) => words(v) || undefined),
    day: words(from["day"]),
    moreOpen: from["moreOpen"] === true, large: from["large"] === true, told: from["told"] === true, back: from["back"] === true,
    visit: {
      marks: named(visit["marks"], (v) => (v === "answered" || v === "later" || v === "write" ? v : undefined)),
      replies: named(visit["replies"], (v) => words(v) || undefined),
      decided: words(visit["decided"]), tries: words(visit["tries"]), meet: words(visit["meet"]),
    },
  };
}

/** Answers that lead along a tree; a tree whose answers no longer do begins anew. */
function walkable(from: Fields, data: Data): { [tree: string]: Answers } {
  const out: { [tree: string]: Answers } = {};
  for (const tree of data.trees) {
    const given = object(entry(from, tree.id));
    const answers: Answers = {};
    for (const q of Object.keys(given)) answers[q] = array(given[q]).map(words);
    try {
      walk(tree, answers, data.units);
      if (Object.keys(answers).length) out[tree.id] = answers;
    } catch {
      // These answers are another edition's.
    }
  }
  return out;
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

function words(x: unknown): string {
  return typeof x === "string" ? x.slice(0, LONGEST) : "";
}

function once(ids: string[]): string[] {
  const out: string[] = [];
  addOnce(out, ids);
  return out;
}
