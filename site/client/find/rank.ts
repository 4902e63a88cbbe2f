// Finds the places of the site that a question is answered at. The index is made by builder/search;
// what it weighs was worked out there.

import { First } from "../types/search";
import { Table, split } from "./table";

/** A part of what was asked: a word or a phrase, with all the terms that stand for it. Of these the one that says most counts. */
export interface Concept {
  terms: { [term: number]: number };
}

export interface Asked {
  concepts: Concept[];
  /** Words that the index lacks, each with the word that was taken for it. */
  taken: [string, string][];
}

/** How much an everyday word's meaning counts beside the word itself, and a word of a phrase that means something as a whole. */
const MEANING = 0.85;
const IN_PHRASE = 0.6;

/** How much a word in a heading counts beside one below it. */
const HEADING = 1.15;

/** How much it counts that words stand in one line, and not here and there below a heading. */
const TOGETHER = 0.9;

/** How much less a place counts that has only some of what is asked: the power of the part that it has. */
const COVERS = 0.7;

/** How much more the first line of a place says than others that have as much, when the one to be shown is chosen. */
const FIRST = 1.5;

/** A short question that fits says more than a long text, and a place that both fit is the better one. By trying. */
const QUESTION = 1.4;
const BOTH = 0.5;

export class Index {
  readonly table: Table;
  private readonly skip: Set<string>;
  private readonly means = new Map<number, { says: number[]; means: number[] }[]>(); // by the first term of what is said
  private readonly lists: (string | undefined)[] = [];
  private readonly read = new Map<number, Places>();
  private readonly units: number;
  private readonly unitOf: Int32Array; // of each line
  private readonly starts: number[] = []; // the first unit of each page
  private readonly firstLine: Int32Array; // of each unit
  private readonly asks = new Map<number, number>(); // of units that are questions: which one it is of those that lead to its place
  private readonly sums: Sums;

  constructor(readonly first: First) {
    this.table = new Table(first.words);
    this.skip = new Set(first.skip.split(" "));
    for (const m of first.means || []) {
      const first = m.says[0] as number;
      const all = this.means.get(first);
      if (all) all.push(m);
      else this.means.set(first, [m]);
    }
    this.units = first.lines.length;
    this.firstLine = new Int32Array(this.units);
    let lines = 0;
    first.lines.forEach((n, unit) => {
      this.firstLine[unit] = lines;
      lines += n;
    });
    this.unitOf = new Int32Array(lines);
    first.lines.forEach((n, unit) => this.unitOf.fill(unit, this.firstLine[unit], (this.firstLine[unit] as number) + n));
    this.sums = new Sums(this.units, lines);
    let n = 0;
    for (const count of first.counts) {
      this.starts.push(n);
      n += count;
    }
    const led = new Map<number, number>();
    for (const [from, to] of first.leads || []) {
      this.asks.set(from, led.get(to) || 0);
      led.set(to, (led.get(to) || 0) + 1);
    }
  }

  /** What a question asks for. */
  asked(question: string, typing: boolean): Asked {
    const words = split(question);
    const out: Asked = { concepts: [], taken: [] };
    const terms = words.map((w) => this.table.term(w));
    for (let i = 0; i < words.length; ) {
      const said = this.phrase(terms, i);
      const concept: Concept = { terms: {} };
      for (const m of said.means) m.forEach((t) => add(concept, t, MEANING));
      for (let k = i; k < i + said.length; k++) this.word(concept, words[k] as string, terms[k] as number, said.length > 1 ? IN_PHRASE : 1, typing && k === words.length - 1, out);
      if (Object.keys(concept.terms).length) out.concepts.push(concept);
      i += said.length;
    }
    return out;
  }

  /** Puts a word into a concept, or the nearest ones where the index lacks it. */
  private word(concept: Concept, word: string, term: number, part: number, begun: boolean, out: Asked): void {
    if (this.skip.has(word)) return; // it says nothing alone
    if (term >= 0) return add(concept, term, part);
    const near = this.table.near(word, begun);
    for (const n of near) {
      add(concept, n.term, n.part * part);
      for (const m of this.means.get(n.term) || []) if (m.says.length === 1) m.means.forEach((t) => add(concept, t, MEANING * n.part * part));
    }
    const taken = near[0];
    if (taken && taken.part < 1) out.taken.push([word, taken.word]);
  }

  /** The longest phrase that begins with a word and means something, and what it means; the word alone where none does. */
  private phrase(terms: number[], i: number): { length: number; means: number[][] } {
    let length = 1;
    let means: number[][] = [];
    for (const m of this.means.get(terms[i] as number) || []) {
      if (m.says.length < length || !m.says.every((t, j) => terms[i + j] === t)) continue;
      if (m.says.length > length) means = [];
      length = m.says.length;
      means.push(m.means);
    }
    return { length, means };
  }

  /** The files with the places of the terms that are asked for and not here yet. */
  lacking(asked: Asked): string[] {
    const out: string[] = [];
    for (const concept of asked.concepts)
      for (const term of Object.keys(concept.terms)) {
        const file = this.fileOf(Number(term));
        if (this.lists[Number(term)] === undefined && !out.includes(file)) out.push(file);
      }
    return out;
  }

  private fileOf(term: number): string {
    let file = "";
    for (const part of this.first.parts) if (part.from <= term) file = part.file;
    return file;
  }

  /** Takes the places that a file brought. */
  take(file: string, lists: string[]): void {
    const part = this.first.parts.find((p) => p.file === file);
    if (part) lists.forEach((list, i) => (this.lists[part.from + i] = list));
  }

  /** The units that answer best, the best first. */
  find(asked: Asked, most: number): Found[] {
    const sums = this.sums;
    sums.clear();
    let all = 0;
    for (const concept of asked.concepts) {
      let says = 0;
      for (const [key, part] of Object.entries(concept.terms)) {
        const places = this.places(Number(key));
        const weight = part * places.rare;
        says = Math.max(says, weight);
        sums.heads(places, HEADING * weight);
        sums.lines(places, weight);
      }
      all += says;
      sums.close(this.unitOf, says);
    }
    sums.end(this.unitOf, this.firstLine);
    const counted = this.first.counted;
    for (const unit of sums.touched) {
      const part = (values[counted.charCodeAt(unit)] as number) / PARTS;
      const together = (sums.head[unit] as number) + (sums.most[unit] as number);
      const score = TOGETHER * together + (1 - TOGETHER) * (sums.all[unit] as number);
      sums.score[unit] = part * score * Math.pow((sums.covers[unit] as number) / all, COVERS);
    }
    this.led();
    return top(sums.touched, sums.score, most).map((f) => this.shows(f));
  }

  /** A question is found at the place that answers it. */
  private led(): void {
    const { score, said, touched } = this.sums;
    for (const [from, to] of this.first.leads || []) {
      const asked = QUESTION * (score[from] as number);
      if (!asked) continue;
      score[from] = 0;
      const own = score[to] as number;
      if (!own) touched.push(to);
      score[to] = Math.max(own, asked) + BOTH * Math.min(own, asked);
      if (asked > own) said[to] = from + 1;
    }
  }

  /** What is shown of a unit: the question that it answers, where that fits better, and the line that does. */
  private shows(f: Found): Found {
    const { line, said } = this.sums;
    const from = said[f.unit] as number;
    f.line = line[f.unit] ? (line[f.unit] as number) - 1 - (this.firstLine[f.unit] as number) : 0;
    if (from) f.asked = this.asks.get(from - 1) as number;
    return f;
  }

  /** How much each of the terms says, for marking what is shown of a place. */
  says(asked: Asked): Map<number, number> {
    const out = new Map<number, number>();
    for (const concept of asked.concepts)
      for (const [key, part] of Object.entries(concept.terms)) {
        const term = Number(key);
        out.set(term, Math.max(out.get(term) || 0, part * this.places(term).rare));
      }
    return out;
  }

  private places(term: number): Places {
    const known = this.read.get(term);
    if (known) return known;
    const made = decode(this.lists[term] || "0.,.");
    this.read.set(term, made);
    return made;
  }

  /** The page of a unit, and which of its units it is. */
  place(unit: number): { page: number; nth: number } {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const mid = (low + high + 1) >> 1;
      if ((this.starts[mid] as number) <= unit) low = mid;
      else high = mid - 1;
    }
    return { page: low, nth: unit - (this.starts[low] as number) };
  }

  /** The name of a unit's page, without ".html". */
  page(unit: number): string {
    return this.first.pages[this.place(unit).page] as string;
  }

  /** The topic whose unit that is; empty where it is none's. */
  topic(unit: number): string {
    const found = (this.first.topics || []).find((t) => t.unit === unit);
    return found ? found.id : "";
  }

  /** Whether a word of a text has one of the terms, and which. */
  termIn(word: string): number {
    return this.table.term(split(word)[0] || "");
  }
}

export interface Found {
  unit: number;
  score: number;
  /** Which of the unit's lines fits best. */
  line?: number;
  /** Which of the everyday questions that lead to it fits better than the place itself. */
  asked?: number;
}

/** Where a term stands. */
interface Places {
  rare: number; // how much it says that a place has the term
  units: Int32Array;
  inHeads: Float32Array;
  lines: Int32Array;
  inLines: Float32Array;
}

/** Adds up what places have of what is asked, concept by concept. A line has all that its headings have. */
class Sums {
  readonly head: Float32Array; // of each unit: what its headings have
  readonly all: Float32Array; // what it has anywhere
  readonly covers: Float32Array; // what the concepts say that it has
  readonly most: Float32Array; // what its best line adds to its headings
  readonly line: Int32Array; // the line that fits best, from 1 on
  readonly said: Int32Array; // the question that fits better, from 1 on
  readonly score: Float32Array;
  touched: number[] = [];
  private readonly adds: Float32Array; // of each line
  private readonly bestFit: Float32Array; // of each unit
  private added: number[] = [];
  private readonly nowHead: Float32Array; // of one concept; all 0 between two
  private readonly nowAny: Float32Array;
  private readonly nowLine: Float32Array;
  private nowUnits: number[] = [];
  private nowLines: number[] = [];

  constructor(units: number, lines: number) {
    const unit = (): Float32Array => new Float32Array(units);
    [this.head, this.all, this.covers, this.most, this.score, this.bestFit, this.nowHead, this.nowAny] = [unit(), unit(), unit(), unit(), unit(), unit(), unit(), unit()];
    [this.line, this.said] = [new Int32Array(units), new Int32Array(units)];
    [this.adds, this.nowLine] = [new Float32Array(lines), new Float32Array(lines)];
  }

  clear(): void {
    for (const a of [this.head, this.all, this.covers, this.most, this.line, this.said, this.score, this.bestFit, this.adds]) a.fill(0);
    this.touched = [];
    this.added = [];
  }

  heads(places: Places, weight: number): void {
    const { nowHead, nowAny, nowUnits } = this;
    for (let i = 0; i < places.units.length; i++) {
      const unit = places.units[i] as number;
      const score = weight * (places.inHeads[i] as number);
      if (!nowAny[unit]) nowUnits.push(unit);
      if (score > (nowHead[unit] as number)) nowHead[unit] = score;
      if (score > (nowAny[unit] as number)) nowAny[unit] = score;
    }
  }

  lines(places: Places, weight: number): void {
    const { nowLine, nowLines } = this;
    for (let i = 0; i < places.lines.length; i++) {
      const line = places.lines[i] as number;
      const score = weight * (places.inLines[i] as number);
      if (!nowLine[line]) nowLines.push(line);
      if (score > (nowLine[line] as number)) nowLine[line] = score;
    }
  }

  /** Ends a concept, which says so much. */
  close(unitOf: Int32Array, says: number): void {
    const { nowHead, nowAny, nowLine, adds, all } = this;
    for (const line of this.nowLines) {
      const unit = unitOf[line] as number;
      const score = nowLine[line] as number;
      nowLine[line] = 0;
      if (!nowAny[unit]) this.nowUnits.push(unit);
      if (score > (nowAny[unit] as number)) nowAny[unit] = score;
      const more = score - (nowHead[unit] as number);
      if (more <= 0) continue;
      if (!adds[line]) this.added.push(line);
      adds[line] = (adds[line] as number) + more;
    }
    for (const unit of this.nowUnits) {
      if (!all[unit]) this.touched.push(unit);
      all[unit] = (all[unit] as number) + (nowAny[unit] as number);
      this.head[unit] = (this.head[unit] as number) + (nowHead[unit] as number);
      this.covers[unit] = (this.covers[unit] as number) + says;
      nowHead[unit] = nowAny[unit] = 0;
    }
    this.nowUnits = [];
    this.nowLines = [];
  }

  /** Ends the last one: the best line of each unit; of two that fit alike, the first. */
  end(unitOf: Int32Array, firstLine: Int32Array): void {
    for (const line of this.added) {
      const unit = unitOf[line] as number;
      const adds = this.adds[line] as number;
      if (adds > (this.most[unit] as number)) this.most[unit] = adds;
      const fit = line === firstLine[unit] ? FIRST * adds : adds;
      if (fit < (this.bestFit[unit] as number) || (fit === this.bestFit[unit] && line + 1 > (this.line[unit] as number))) continue;
      this.bestFit[unit] = fit;
      this.line[unit] = line + 1;
    }
  }
}

function add(to: Concept, term: number, part: number): void {
  to.terms[term] = Math.max(to.terms[term] || 0, part);
}

function before(a: Found, b: Found): boolean {
  return a.score > b.score || (a.score === b.score && a.unit < b.unit);
}

function top(units: number[], scores: Float32Array, most: number): Found[] {
  const out: Found[] = [];
  let least = 0; // what a place has to reach once there are enough
  for (const unit of units) {
    if ((scores[unit] as number) < least) continue;
    const found = { unit, score: scores[unit] as number };
    if (!found.score) continue; // found where it leads
    let at = out.length;
    while (at && before(found, out[at - 1] as Found)) at--;
    if (at === most) continue;
    out.splice(at, 0, found);
    if (out.length > most) out.pop();
    if (out.length === most) least = (out[most - 1] as Found).score;
  }
  return out;
}

const digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
const values = new Uint8Array(128);
for (let i = 0; i < digits.length; i++) values[digits.charCodeAt(i)] = i;

/** The steps of a weight, of how much a unit counts and of how rare a term is; see Steps, Parts and Rarities in builder/search. */
const STEPS = 12;
const PARTS = 20;
const RARITIES = 5;

/** Reads where a term stands, as builder/search writes it. */
function decode(list: string): Places {
  const [heads, lines] = list.slice(1).split(",");
  const [units, inHeads] = listed(heads || ".");
  const [inLine, inLines] = listed(lines || ".");
  return { rare: (values[list.charCodeAt(0)] as number) / RARITIES, units, inHeads, lines: inLine, inLines };
}

function listed(list: string): [Int32Array, Float32Array] {
  const end = list.indexOf(".");
  const n = list.length - end - 1;
  const places = new Int32Array(n);
  const weights = new Float32Array(n);
  let place = -1;
  let way = 0;
  let shift = 0;
  for (let i = 0, k = 0; i < end; i++) {
    const d = values[list.charCodeAt(i)] as number;
    way += (d & 31) << shift;
    shift += 5;
    if (d > 31) continue;
    place += way;
    places[k] = place;
    weights[k] = (values[list.charCodeAt(end + 1 + k)] as number) / STEPS;
    k++;
    way = shift = 0;
  }
  return [places, weights];
}
