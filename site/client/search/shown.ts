// What is shown of a place that was found: the page, the heading, and the paragraph that answers best, with the
// words marked that were looked for.

import { Index } from "../find/rank";
import { split } from "../find/table";
import { clone, make, slot } from "../page/dom";
import { Text, UnitText } from "../types/search";

/** About how many letters are shown of a paragraph. */
const ROOM = 260;

export function shown(index: Index, says: Map<number, number>, root: string, page: string, text: Text, unit: UnitText): HTMLElement {
  const row = clone("found-place");
  const best = answering(index, says, unit);
  slot(row, "page").textContent = text.title;
  const link = slot(row, "link") as HTMLAnchorElement;
  link.textContent = unit.heading || text.title;
  if (!unit.heading) slot(row, "page").hidden = true;
  link.href = address(root + page + ".html", unit.at || "", best.onPage ? best.text : "");
  mark(slot(row, "text"), index, says, best.text);
  return row;
}

interface Best {
  text: string;
  /** Whether it stands on the page itself, and not as the short answer to an everyday question. */
  onPage: boolean;
}

function answering(index: Index, says: Map<number, number>, unit: UnitText): Best {
  let best: Best = { text: "", onPage: true };
  let most = -1;
  const look = (text: string, with_: string, onPage: boolean): void => {
    const score = scored(index, says, text + " " + with_);
    if (score > most) {
      most = score;
      best = { text, onPage };
    }
  };
  for (const p of unit.paragraphs || []) look(p, "", true);
  for (const [question, answer] of unit.asked || []) look(answer, question, false);
  return best;
}

function scored(index: Index, says: Map<number, number>, text: string): number {
  const seen = new Set<number>();
  for (const word of split(text)) {
    const term = index.table.term(word);
    if (says.has(term)) seen.add(term);
  }
  let out = 0;
  seen.forEach((t) => (out += says.get(t) as number));
  return out / (1 + text.length / 4000); // of two that say as much, the shorter one
}

/** Where a place is. The browser itself shows the paragraph, where it can ("text fragments" of the WICG). */
export function address(page: string, at: string, text: string): string {
  const directive = "fragmentDirective" in document && text ? ":~:text=" + fragment(text) : "";
  return page + (at || directive ? "#" + at + directive : "");
}

function fragment(text: string): string {
  const words = text.split(" ");
  const coded = (some: string[]): string => encodeURIComponent(some.join(" ")).replace(/-/g, "%2D");
  return words.length < 12 ? coded(words) : coded(words.slice(0, 5)) + "," + coded(words.slice(-4));
}

/** Puts a text into a place, cut to its room around the first word that is marked. */
function mark(place: HTMLElement, index: Index, says: Map<number, number>, text: string): void {
  const parts = cut(index, says, text).split(/([\p{L}\p{N}'’]+)/u);
  parts.forEach((part, i) => {
    if (i % 2 && says.has(index.termIn(part))) place.appendChild(make("mark", part));
    else place.appendChild(document.createTextNode(part));
  });
}

function cut(index: Index, says: Map<number, number>, text: string): string {
  if (text.length <= ROOM) return text;
  const words = text.split(" ");
  let from = 0;
  let most = -1;
  for (let i = 0; i < words.length; i += 3) {
    const score = scored(index, says, part(words, i));
    if (score > most) {
      most = score;
      from = i;
    }
  }
  const out = part(words, from);
  return (from ? "… " : "") + out + (words.slice(from).join(" ").length > out.length ? " …" : "");
}

function part(words: string[], from: number): string {
  let out = "";
  for (let i = from; i < words.length && out.length + (words[i] as string).length < ROOM; i++) out += (out ? " " : "") + words[i];
  return out;
}
