// The drawing on the sheet: the reader's own slope, heels or load where these are told, else the things that were told, on
// one ground. It shows what stands under "About me" and nothing else, so what is taken off there is not drawn either.

import { Sentence } from "./about";
import { make } from "../page/dom";
import { State } from "../state/state";
import { exact } from "../sums/quantity";
import { Ground } from "../tree/ground";
import { entry } from "../walk/walker";

/** So many things stand side by side. */
const MOST = 2;

/** A thing that was told, with its amount where it has one. */
interface Thing {
  tile: string;
  amount?: number;
  says?: string;
}

/** What the figure on the sheet holds, of the sentences that stand there; nothing where they speak of no thing. */
export function drawing(state: State, sentences: Sentence[], ground: Ground): HTMLElement[] {
  const about = state.data.about;
  const shown = sentences.filter((one) => !!about && about.drawn.indexOf(one.part) >= 0);
  const all = ([] as Thing[]).concat(...shown.map((one) => things(state, one)));
  return ofAmounts(all.filter((t) => t.amount !== undefined), ground) || ofThings(all, ground);
}

/** The things that a sentence speaks of. */
function things(state: State, one: Sentence): Thing[] {
  const told = entry(state.told(), one.id);
  const [tree, question, answer] = (told ? [told.tree, told.question] : one.id.split("/")) as [string, string?, string?];
  const row = question && entry(state.tree(tree).questions, question);
  if (!row) return [];
  if (row.measure) {
    const value = entry(state.path(tree).amounts || {}, question as string);
    return told && value && row.measure.ground ? [{ tile: row.measure.ground, amount: exact(value), says: state.wordsOf(one.id) }] : [];
  }
  const chosen = answer ? [answer] : state.chosen(tree, question as string);
  const speaks = (row.answers || []).filter((a) => chosen.indexOf(a.id) >= 0 && (!told || (a.tells || []).indexOf(one.id) >= 0));
  return speaks.filter((a) => a.ground).map((a) => ({ tile: a.ground as string }));
}

/** The picture of the amounts that were told first, with what they are. */
function ofAmounts(all: Thing[], ground: Ground): HTMLElement[] | undefined {
  for (const first of all) {
    for (const name of Object.keys(ground.owns)) {
      const of = (entry(ground.owns, name) as Ground["owns"][string]).of || [];
      const these = all.filter((t) => t.tile === first.tile).slice(0, of.length);
      if (!of.length || these.length < of.length || of.some((tile) => tile !== first.tile)) continue;
      const svg = ground.own(name, ...these.map((t) => t.amount as number));
      if (svg) return [row([svg]), captions(these)];
    }
  }
  return undefined;
}

/** Tiles side by side. A tile that takes an amount is drawn of one that was told, and never of a usual one. */
function ofThings(all: Thing[], ground: Ground): HTMLElement[] {
  const out: SVGSVGElement[] = [];
  const names: string[] = [];
  for (const thing of all) {
    if (out.length === MOST || names.indexOf(thing.tile) >= 0) continue;
    const svg = ground.tile(thing.tile, thing.amount);
    if (!svg || (thing.amount === undefined && svg.querySelector("[data-is]"))) continue;
    if (thing.says) return [row([svg]), captions([thing])];
    names.push(thing.tile);
    out.push(svg);
  }
  return out.length ? [row(out)] : [];
}

function row(all: SVGSVGElement[]): HTMLElement {
  const div = make("div", "", "drawn");
  for (const svg of all) div.appendChild(svg);
  return div;
}

function captions(all: Thing[]): HTMLElement {
  const caption = make("figcaption");
  for (const one of all) caption.appendChild(make("p", one.says));
  return caption;
}

/** Things that were told are drawn where the sheet keeps to so many densities from the roomiest, or is no roomier without them. */
const ROOMY = 3;

/** So many steps tighter a sheet may be for the picture of the reader's own amounts. */
const MORE = 2;

/** The roomiest density with the drawing, large or small; or without it, where it would take too much room from the words. */
export function fit(figure: HTMLElement, roomiest: () => number): number {
  if (figure.hidden) return roomiest();
  figure.hidden = true;
  const without = roomiest();
  const most = figure.querySelector("[data-own]") ? without + MORE : Math.max(without, ROOMY - 1);
  figure.hidden = false;
  for (const size of ["", "small"]) {
    figure.className = size;
    const at = roomiest();
    if (at >= 0 && at <= most) return at;
  }
  figure.hidden = true;
  return roomiest();
}
