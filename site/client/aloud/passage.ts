// What is read of a part of a page: its visible text, block by block, and each sentence with its place, so that the eye can follow.

import { sentences } from "./sentences";

/** What is not read: furniture, drawings, marks of sources, and what only a screen reader says. */
const SILENT = "nav, footer, svg, script, style, template, input, select, textarea, .cite, .unseen, .aloud, .line, .status, .main, .plain, .jump, [aria-hidden=true]";

/** A sentence, and where it stands. */
export interface Sentence {
  text: string;
  range: Range;
}

/** The sentences below an element, in the order of the page. */
export function passage(root: Element, lang: string): Sentence[] {
  const out: Sentence[] = [];
  for (const block of blocks(root)) {
    const text = block.map((n) => n.data).join("");
    for (const [from, to] of sentences(text, lang)) out.push({ text: text.slice(from, to), range: within(block, from, to) });
  }
  return out;
}

/** The texts below an element, those of one block together. */
function blocks(root: Element): Text[][] {
  const walk = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  const out: Text[][] = [];
  let last: Element | undefined;
  for (let n = walk.nextNode() as Text | null; n; n = walk.nextNode() as Text | null) {
    if (!heard(n.parentElement as Element)) continue;
    const block = blockOf(n);
    if (block !== last) {
      if (!/\S/.test(n.data)) continue; // a blank before a block is nothing; one within keeps words apart
      out.push([]);
    }
    last = block;
    (out[out.length - 1] as Text[]).push(n);
  }
  return out;
}

function heard(within: Element): boolean {
  return !within.closest(SILENT) && within.getClientRects().length > 0 && getComputedStyle(within).visibility === "visible" && open(within);
}

/** A closed fold is read by its name alone. */
function open(e: Element): boolean {
  const fold = e.closest("details:not([open])");
  if (!fold) return true;
  const name = e.closest("summary");
  return !!name && name.parentElement === fold && (!fold.parentElement || open(fold.parentElement));
}

function blockOf(n: Text): Element {
  let e = n.parentElement as Element;
  while (e.parentElement && getComputedStyle(e).display === "inline") e = e.parentElement;
  return e;
}

/** The place of a stretch of a block's text. */
function within(block: Text[], from: number, to: number): Range {
  const range = document.createRange();
  let at = 0;
  for (const n of block) {
    const end = at + n.data.length;
    if (from >= at && from < end) range.setStart(n, from - at);
    if (to > at && to <= end) range.setEnd(n, to - at);
    at = end;
  }
  return range;
}
