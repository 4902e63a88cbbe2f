// Drawings of what is answered: tiles for answers that are a thing, and pictures of the reader's own amounts. Loaded beside
// the first topic, and nothing waits for it: without it the words stand alone. The build gives the tiles of the topics' list
// and the pictures behind this script, and the tiles of each topic in a script of its own (builder/publish/ground.go).

import { loadScript, loadStyle } from "../page/load";
import { drawCuts } from "../page/cuts";
import { make, slot } from "../page/dom";
import { Sentence } from "../sheet/about";
import { drawing, fit } from "../sheet/drawn";
import { State } from "../state/state";
import { entry } from "../sums/own";
import { setTo } from "../sums/moves";
import { exact, Tables, Value } from "../sums/quantity";
import { worded } from "../tree/said";
import { Tree } from "../tree/tree";
import { GroundPart, GroundShape } from "../types/publish";
import { Path } from "../walk/walker";
import * as words from "../words/words";
import { offerReading } from "./reads";

const NAME = "http://www.w3.org/2000/svg";
const WIDE = 120;

const tiles: { [name: string]: GroundShape } = {};
const owns: { [name: string]: GroundShape } = {};
const more: { [tree: string]: string } = {};
const bodies = new WeakMap<SVGSVGElement, GroundShape>();
const coming: { [file: string]: Promise<void> } = {};
let styled: Promise<void> | undefined;
let cuts = "";
let shown = "";
let drawn = "";

// What a script brings lies beside it, and is named from the page as the script is.
const beside = ((document.currentScript as HTMLScriptElement).getAttribute("src") as string).replace(/[^/]*$/, "");

export interface Ground {
  take: typeof take;
  ready: typeof ready;
  tile: typeof tile;
  own: typeof own;
  set: typeof set;
  place: typeof place;
  owns: typeof owns;
  sheet: typeof sheet;
  fit: typeof fit;
}

/** Takes up what the build gives. */
function take(part: GroundPart): void {
  Object.assign(tiles, part.tiles);
  Object.assign(owns, part.owns);
  Object.assign(more, part.more);
  if (part.cuts) cuts = part.cuts;
  if (part.shown) shown = part.shown;
  if (part.drawn) drawn = part.drawn;
  if (part.style) styled = once(part.style, loadStyle);
}

/** The tiles of topics are there, and what they look like. It fails where they cannot be loaded; then the words stand alone. */
function ready(...trees: string[]): Promise<unknown> {
  const files = trees.map((tree) => entry(more, tree));
  return Promise.all([styled, ...files.map((file) => file && once(file, loadScript))]);
}

function once(file: string, load: (from: string) => Promise<void>): Promise<void> {
  const known = entry(coming, file);
  if (known) return known;
  const came = load(beside + file);
  coming[file] = came;
  came.catch(() => delete coming[file]);
  return came;
}

/** A tile, at its usual amount where none is given. What it shows is said beside it, so it is hidden from who listens. */
function tile(name: string, amount?: number): SVGSVGElement | undefined {
  const shape = entry(tiles, name);
  return shape && made(shape, "data-ground", name, amount === undefined ? shape.usual || [] : [amount]);
}

/** A picture of the reader's own amounts, in the order in which it takes them; its words stand beside it. */
function own(name: string, ...amounts: number[]): SVGSVGElement | undefined {
  const shape = entry(owns, name);
  return shape && made(shape, "data-own", name, amounts);
}

function made(shape: GroundShape, mark: string, name: string, amounts: number[]): SVGSVGElement {
  const svg = document.createElementNS(NAME, "svg");
  const attributes: { [name: string]: string } = { class: "ground", "aria-hidden": "true", focusable: "false", [mark]: name };
  for (const key of Object.keys(attributes)) svg.setAttribute(key, attributes[key] as string);
  bodies.set(svg, shape);
  set(svg, ...amounts);
  return svg;
}

/** Draws a tile or a picture anew, at other amounts. */
function set(svg: SVGSVGElement, ...amounts: number[]): void {
  const shape = bodies.get(svg) as GroundShape;
  svg.setAttribute("viewBox", `0 0 ${shape.wide} ${shape.tall + Math.round((shape.deep || 0) * (amounts[0] || 0))}`);
  svg.innerHTML = setTo(shape.body, amounts);
  if (shape.wide === WIDE) svg.setAttribute("data-rise", String((shape.run || 0) * (amounts[0] || 0)));
}

/** Puts the picture of an ending above its notes, at what the reader told; none where not all of it is known. */
function place(ending: ParentNode, tree: Tree, path: Path, units: Tables): void {
  const row = entry(tree.endings, path.ending);
  const shown = row && row.own;
  if (!shown) return;
  const told = shown.of.map((id) => entry(path.amounts || {}, id));
  if (!told.every((v) => v)) return;
  const values = told as Value[];
  const svg = own(shown.name, ...values.map(exact));
  if (!svg) return;
  const figure = make("figure", "", "own");
  figure.appendChild(svg);
  const caption = figure.appendChild(make("figcaption"));
  for (const text of captions(shown.name, values.map((v, i) => worded(tree, shown.of[i] as string, v, units)), svg)) caption.appendChild(make("p", text));
  const notes = slot(ending, "cards");
  (notes.parentElement as HTMLElement).insertBefore(figure, notes);
}

/** What the figure on the sheet holds. */
function sheet(state: State, sentences: Sentence[]): HTMLElement[] {
  return drawing(state, sentences, { tile, own, owns });
}

/** What stands below a picture; of a slope first what is under each leg. */
function captions(name: string, said: string[], svg: SVGSVGElement): string[] {
  const [one = "", other = ""] = said;
  if (name === "side-slope") return [words.ownSideSlope(one)];
  if (name === "heels") return [words.ownHeels(one, other)];
  if (name === "load") return [words.ownLoad(one)];
  const degrees = (svg.querySelector("text") as SVGTextElement).textContent as string;
  return [words.ownSlopeStays, words.ownSlopeBends(degrees), words.ownSlope(one)];
}

(window as { keelpathGround?: Ground }).keelpathGround = { take, ready, tile, own, set, place, owns, sheet, fit };

// Kinds of feet at an ending have their cutaways once their list is opened. Where these do not come, the words stand alone.
document.addEventListener("toggle", ({ target }) => {
  if (target instanceof HTMLDetailsElement && target.open && target.matches(".kinds")) once(cuts, loadScript).then(() => drawCuts(target), () => undefined);
}, true);

// So has a drawing of what to do, at an ending or on a card. One drawing may stand in two places, so its ids get a number.
let times = 0;
document.addEventListener("toggle", ({ target }) => {
  if (!(target instanceof HTMLDetailsElement) || !target.open || !target.matches(".shows") || target.querySelector("svg")) return;
  Promise.all([once(shown, loadScript), once(drawn, loadStyle)]).then(() => {
    const id = target.getAttribute("data-shows") as string;
    const svg = entry((window as { keelpathShown?: { [id: string]: string } }).keelpathShown || {}, id);
    if (svg && !target.querySelector("svg")) target.insertAdjacentHTML("beforeend", svg.split(`"${id}-`).join(`"${id}-${++times}-`));
  }, () => undefined);
}, true);

offerReading(slot(document, "view"));
