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

/** How much an everyday word's meaning counts beside the word itself. */
const MEANING = 1;

/** A short question that fits says more than a long text, and a place that both fit is the better one. By trying. */
const QUESTION = 1.2;
const BOTH = 0.2;

export class Index {
  readonly table: Table;
  private readonly skip: Set<string>;
  private readonly means = new Map<number, { says: number[]; means: number[] }[]>(); // by the first term of what is said
  private readonly lists: (string | undefined)[] = [];
  private readonly read = new Map<number, Places>();
  private readonly scores: Float32Array;
  private readonly best: Float32Array; // of one concept; all 0 between two
  private readonly starts: number[] = []; // the first unit of each page

  constructor(readonly first: First) {
    this.table = new Table(first.words);
    this.skip = new Set(first.skip.split(" "));
    for (const m of first.means || []) {
      const first = m.says[0] as number;
      const all = this.means.get(first);
      if (all) all.push(m);
      else this.means.set(first, [m]);
    }
    this.scores = new Float32Array(first.units);
    this.best = new Float32Array(first.units);
    let n = 0;
    for (const count of first.counts) {
      this.starts.push(n);
      n += count;
    }
  }

  /** What a question asks for. */
  asked(question: string, typing: boolean): Asked {
    const words = split(question);
    const out: Asked = { concepts: [], taken: [] };
    const terms = words.map((w) => this.table.term(w));
    const said = this.phrases(terms);
    words.forEach((word, i) => {
      const concept: Concept = { terms: {} };
      const term = terms[i] as number;
      if (this.skip.has(word)) {
        // it says nothing alone
      } else if (term >= 0) {
        add(concept, term, 1);
      } else {
        const near = this.table.near(word, typing && i === words.length - 1);
        for (const n of near) {
          add(concept, n.term, n.part);
          for (const m of this.means.get(n.term) || []) if (m.says.length === 1) m.means.forEach((t) => add(concept, t, MEANING * n.part));
        }
        const taken = near[0];
        if (taken && taken.part < 1) out.taken.push([word, taken.word]);
      }
      for (const m of said[i] || []) m.forEach((t) => add(concept, t, MEANING));
      if (Object.keys(concept.terms).length) out.concepts.push(concept);
    });
    return out;
  }

  /** What the phrases of a question mean, by the place of each one's first word. */
  private phrases(terms: number[]): number[][][] {
    return terms.map((term, i) => {
      const all = (this.means.get(term) || []).filter((m) => m.says.every((t, j) => terms[i + j] === t));
      return all.map((m) => m.means);
    });
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
    const scores = this.scores.fill(0);
    const best = this.best;
    const touched: number[] = [];
    for (const concept of asked.concepts) {
      const now: number[] = [];
      for (const [key, part] of Object.entries(concept.terms)) {
        const places = this.places(Number(key));
        const weight = part * this.rare(places.units.length);
        for (let i = 0; i < places.units.length; i++) {
          const unit = places.units[i] as number;
          const score = weight * (places.weights[i] as number);
          const before = best[unit] as number;
          if (!before) now.push(unit);
          if (score > before) best[unit] = score;
        }
      }
      for (const unit of now) {
        if (!scores[unit]) touched.push(unit);
        scores[unit] = (scores[unit] as number) + (best[unit] as number);
        best[unit] = 0;
      }
    }
    return top(this.led(touched, scores), scores, most);
  }

  /** A question is found at the place that answers it. */
  private led(touched: number[], scores: Float32Array): number[] {
    for (const [from, to] of this.first.leads || []) {
      const score = scores[from] as number;
      if (!score) continue;
      scores[from] = 0;
      const own = scores[to] as number;
      if (!own) touched.push(to);
      scores[to] = Math.max(own, QUESTION * score) + BOTH * Math.min(own, QUESTION * score);
    }
    return touched;
  }

  /** How much it says that a place has a term: the fewer have it, the more (the IDF of BM25). */
  private rare(n: number): number {
    return Math.log(1 + (this.first.units - n + 0.5) / (n + 0.5));
  }

  /** How much each of the terms says, for choosing what is shown of a place. */
  says(asked: Asked): Map<number, number> {
    const out = new Map<number, number>();
    for (const concept of asked.concepts)
      for (const [key, part] of Object.entries(concept.terms)) {
        const term = Number(key);
        out.set(term, Math.max(out.get(term) || 0, part * this.rare(this.places(term).units.length)));
      }
    return out;
  }

  private places(term: number): Places {
    const known = this.read.get(term);
    if (known) return known;
    const made = decode(this.lists[term] || "");
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
}

interface Places {
  units: Int32Array;
  weights: Float32Array;
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

/** The steps of a weight; see Steps in builder/search. */
const STEPS = 8;

/** Reads a term's places, as builder/search writes them. */
function decode(list: string): Places {
  const end = list.indexOf(".");
  const n = end < 0 ? 0 : list.length - end - 1;
  const units = new Int32Array(n);
  const weights = new Float32Array(n);
  let unit = -1;
  let way = 0;
  let shift = 0;
  for (let i = 0, k = 0; i < end; i++) {
    const d = values[list.charCodeAt(i)] as number;
    way += (d & 31) << shift;
    shift += 5;
    if (d > 31) continue;
    unit += way;
    units[k] = unit;
    weights[k] = (values[list.charCodeAt(end + 1 + k)] as number) / STEPS;
    k++;
    way = shift = 0;
  }
  return { units, weights };
}
