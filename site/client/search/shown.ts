// What is shown of a place that was found: the page, the heading, and the paragraph that answers best, with the
// words marked that were looked for.

import { Found, Index } from "../find/rank";
import { clone, make, slot } from "../page/dom";
import { Text, UnitText } from "../types/search";

/** About how many letters are shown of a paragraph. */
const ROOM = 260;

export function shown(index: Index, says: Map<number, number>, root: string, page: string, text: Text, unit: UnitText, found: Found): HTMLElement {
  const row = clone("found-place");
  const line = (unit.paragraphs || [])[found.line || 0] || "";
  const asked = found.asked === undefined ? undefined : (unit.asked || [])[found.asked];
  slot(row, "page").textContent = text.title;
  const link = slot(row, "link") as HTMLAnchorElement;
  link.textContent = unit.heading || text.title;
  if (!unit.heading) slot(row, "page").hidden = true;
  link.href = address(root + page + ".html", unit.at || "", words(unit, found.line || 0));
  mark(slot(row, "text"), index, says, asked ? asked[1] : line);
  return row;
}

/** Where a place is. The browser itself shows the paragraph, where it can ("text fragments" of the WICG). */
export function address(page: string, at: string, text: string): string {
  const directive = "fragmentDirective" in document && text ? ":~:text=" + encodeURIComponent(text).replace(/-/g, "%2D") : "";
  return page + (at || directive ? "#" + at + directive : "");
}

/** How many words of a paragraph a link names at most; see Landing in builder/search. */
const LANDING = 8;

/** The words by which the browser finds a line. They stand together: where it finds none, it shows the top of the page. */
function words(unit: UnitText, nth: number): string {
  const text = (unit.paragraphs || [])[nth] || "";
  const [, from, n] = (unit.lands || []).find((l) => l[0] === nth) || [nth, 0, LANDING];
  return text.split(" ").slice(from, from + n).join(" ");
}

/** Puts a text into a place, cut to its room, with the words marked. */
function mark(place: HTMLElement, index: Index, says: Map<number, number>, text: string): void {
  const parts = cut(index, says, text).split(/([\p{L}\p{N}'’]+)/u);
  let plain = "";
  parts.forEach((part, i) => {
    if (i % 2 === 0 || !says.has(index.termIn(part))) {
      plain += part;
      return;
    }
    place.appendChild(document.createTextNode(plain));
    place.appendChild(make("mark", part));
    plain = "";
  });
  place.appendChild(document.createTextNode(plain));
}

/** A long text from the sentence on that has most of what is looked for near it, of several the first, in whole sentences. */
function cut(index: Index, says: Map<number, number>, text: string): string {
  if (text.length <= ROOM) return text;
  const words = text.split(" ");
  const weights = words.map((w) => says.get(index.termIn(w)) || 0);
  let from = 0;
  let most = -1;
  for (let i = 0; i < words.length; i++) {
    if (i && !/[.?!]$/.test(words[i - 1] as string)) continue;
    let score = 0;
    const to = fits(words, i);
    for (let k = i; k < to; k++) score += weights[k] as number;
    if (score > most) [most, from] = [score, i];
  }
  const to = whole(words, fits(words, from));
  return (from ? "… " : "") + words.slice(from, to).join(" ") + (to < words.length ? " …" : "");
}

/** How many letters a sentence may go on past the room: whom to call stands at the end of one. */
const BEYOND = 160;

/** Up to which word the sentence goes on that is cut at one; where it is too long, that one. */
function whole(words: string[], to: number): number {
  const end = fits(words, to, BEYOND);
  for (let k = to; k <= end; k++) if (/[.?!]["”')]*$/.test(words[k - 1] || "")) return k;
  return to;
}

/** Up to which word there is room, from one on. */
function fits(words: string[], from: number, room = ROOM): number {
  let letters = 0;
  let to = from;
  while (to < words.length && letters + (words[to] as string).length < room) letters += (words[to++] as string).length + 1;
  return to;
}
