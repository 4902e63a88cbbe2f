// What is kept of a reader's visit: in this page's memory, in this tab while it
// is open, and in a file if the reader saves one. All three hold the same thing.

import { Data } from "./data";
import { Answers } from "../walk/walker";

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
  /** Sentences under "About me" that the reader took off; missing where there is none. */
  unsaid?: string[];
  /** For whom the reader speaks: a child, or a person whom they care for; missing where they speak for themselves. */
  voice?: string | undefined;
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

/** Whoever changes what a sheet holds raises this, and adds a step to opened.ts. */
export const VERSION = 2;

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
 * The topics that such a text may have something of, for their trees have to come before it is read. One that
 * only waits is among them: it is taken next.
 */
export function topicsIn(text: string, data: Data): string[] {
  return data.topics.map((t) => t.id).filter((id) => text.indexOf(`"${id}"`) >= 0 || text.indexOf(`"${id}/`) >= 0);
}

/** A sheet that was read, with what is to be said of it: what was left out, or why it was not opened. */
export type Found = (Opened | NotOpened) & { says: string };
