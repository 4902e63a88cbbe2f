// A question that a figure on another page brought along, behind "#own=" in the
// address.

import { takeFragment } from "../page/fragment";

const MARK = "#own=";

/** The question, as plain text; empty where there is none. */
export function offeredQuestion(): string {
  return question(takeFragment(MARK));
}

/** Reads what stands behind the mark. Blanks and signs that cannot be seen become one blank. */
export function question(coded: string): string {
  try {
    return decodeURIComponent(coded).replace(/[\s\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]+/g, " ").trim();
  } catch {
    return ""; // not written by a figure
  }
}
