// Cards on the sheet: the notes that answers added, as the reader keeps them.

import { clone } from "../page/dom";
import { State } from "../state/state";
import { entry } from "../walk/walker";

/** Fresh copies of the cards of all trees taken, in the order they came. Drawings of what to do stay at the endings. */
export function notes(state: State): HTMLElement[] {
  const made = state.cards("").filter((id) => entry(state.data.cards, id)).map((id) => clone(`part-card-${id}`));
  for (const card of made) for (const shows of Array.from(card.querySelectorAll(".shows"))) shows.remove();
  return made;
}

/** What a part of the page says, block by block. */
export function blocks(part: HTMLElement): string[] {
  const all = Array.from(part.querySelectorAll<HTMLElement>("h3, h4, p, li")).filter((e) => !e.closest(".by-hand"));
  return all.map((e) => (e.textContent as string).replace(/\s+/g, " ").trim()).filter((text) => text);
}

/** A card in words: its title as a sentence, and its text. */
export function worded(card: HTMLElement): [string, string] {
  const [title, ...text] = blocks(card);
  return [`${title}.`, text.join(" ")];
}
