// The sheet's code: the browser's copy of builder/sheetcode, which is the
// reference and says what is in a code. It knows no page.

import { Measure, Tables, named, refused } from "./quantity";
import { Facts, told } from "./told";
import { Answers, Path, SKIP, Table, TableAnswer, TableMeasure, TableRow, amount, entry, isSkip, walk } from "./walker";

// Whole numbers of any size. Their literals are newer than the browsers that the script is written down for.
declare function BigInt(x: number): bigint;
const big = (x: number): bigint => BigInt(x);
const NONE = big(0);
const ONE = big(1);

/** What both ends must know alike. */
export interface Book {
  /** The edition's mark. */
  edition: number;
  /** Trees that the planner offers, in its order. */
  trees: Table[];
  /** General ones first, then in the order of the topics. */
  prompts: string[];
  general: string[];
  cards: { [id: string]: { prompts?: string[] } };
  /** What can be told, and by prompt what it hangs on. */
  facts: Facts;
  fits: { [prompt: string]: { presumes?: string[]; unless?: string[] } };
  units?: Tables | undefined;
}

/** What a code holds. Answers are only those on the path; stars are in the order of the book. */
export interface Sheet {
  taken: string[];
  answers: { [tree: string]: Answers };
  picks: { [prompt: string]: boolean };
  stars: string[];
}

/** Why a code was not read: a symbol is wrong or missing, or it was made with another edition. */
export interface NoSheet {
  refused: "mistyped" | "other edition";
}

const EDITIONS = big(1 << 15);
const MOST_SHORT = 12;
const MOST_STARS = 3;
const MOST_SYMBOLS = 400;

/** Gives the code of a sheet, in groups of four symbols. */
export function encode(book: Book, sheet: Sheet): string {
  const p = new Packer();
  p.put(big(book.edition), EDITIONS);
  const marks = which(book, sheet.taken);
  const taken = takenOf(book, marks);
  p.put(marks, choices(book));
  const paths: Path[] = [];
  for (const id of taken) {
    const rooms = new Rooms(tableOf(book, id), book.units);
    const path = walk(rooms.table, entry(sheet.answers, id) || {}, book.units);
    paths.push(path);
    p.put(rooms.rank(path), rooms.all());
  }
  packPrompts(book, p, cameUp(book, taken, paths, sheet.answers), sheet);
  return spell(p.number());
}

/** Reads a code as a person typed it. */
export function decode(book: Book, text: string): Sheet | NoSheet {
  const n = unspell(text);
  if (n === null) return { refused: "mistyped" };
  const u = new Unpacker(n);
  if (u.get(EDITIONS) !== big(book.edition)) return { refused: "other edition" };
  const sheet: Sheet = { taken: takenOf(book, u.get(choices(book))), answers: {}, picks: {}, stars: [] };
  const paths: Path[] = [];
  for (const id of sheet.taken) {
    const rooms = new Rooms(tableOf(book, id), book.units);
    const answers = rooms.unrank(u.get(rooms.all()));
    if (!answers) return { refused: "mistyped" };
    sheet.answers[id] = answers;
    paths.push(walk(rooms.table, answers, book.units));
  }
  const whole = unpackPrompts(book, u, cameUp(book, sheet.taken, paths, sheet.answers), sheet);
  return whole && u.rest === NONE ? sheet : { refused: "mistyped" };
}

// Crockford's Base 32

const SYMBOLS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const CHECKS = SYMBOLS + "*~$=U";

function spell(n: bigint): string {
  let out = CHECKS.charAt(Number(n % big(37)));
  do {
    out = SYMBOLS.charAt(Number(n % big(32))) + out;
    n /= big(32);
  } while (n > NONE);
  return (out.match(/.{1,4}/g) as string[]).join("-");
}

function unspell(text: string): bigint | null {
  const s = text
    .replace(/[ \t\n\r\u00a0\u2010-\u2014\u2212-]/g, "")
    .replace(/[a-z]/g, (c) => c.toUpperCase())
    .replace(/[IL]/g, "1")
    .replace(/O/g, "0");
  if (s.length < 2 || s.length > MOST_SYMBOLS) return null;
  let n = NONE;
  for (let i = 0; i < s.length - 1; i++) {
    const d = SYMBOLS.indexOf(s.charAt(i));
    if (d < 0) return null;
    n = n * big(32) + big(d);
  }
  return Number(n % big(37)) === CHECKS.indexOf(s.charAt(s.length - 1)) ? n : null;
}

// Numbers with mixed bases, least significant digit first

class Packer {
  private readonly digits: bigint[] = [];
  private readonly bases: bigint[] = [];

  put(digit: bigint, base: bigint): void {
    this.digits.push(digit);
    this.bases.push(base);
  }

  number(): bigint {
    let n = NONE;
    for (let i = this.digits.length - 1; i >= 0; i--) n = n * (this.bases[i] as bigint) + (this.digits[i] as bigint);
    return n;
  }
}

class Unpacker {
  constructor(public rest: bigint) {}

  get(base: bigint): bigint {
    const digit = this.rest % base;
    this.rest /= base;
    return digit;
  }

  take(base: number): number {
    return Number(this.get(big(base)));
  }
}

function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return NONE;
  let out = ONE;
  for (let i = 1; i <= k; i++) out = (out * big(n - k + i)) / big(i);
  return out;
}

/** The rank of a rising list among all of its length. */
function set(places: number[]): bigint {
  return places.reduce((sum, p, i) => sum + choose(p, i + 1), NONE);
}

function unset(rank: bigint, k: number): number[] {
  const out: number[] = [];
  for (let i = k; i > 0; i--) {
    let p = i - 1;
    while (choose(p + 1, i) <= rank) p++;
    out.unshift(p);
    rank -= choose(p, i);
  }
  return out;
}

/** The number of sets of at most k out of n. */
function few(n: number, k: number): bigint {
  let out = NONE;
  for (let i = 0; i <= k; i++) out += choose(n, i);
  return out;
}

function upTo(n: number, places: number[]): bigint {
  return set(places) + few(n, places.length - 1);
}

function unUpTo(n: number, rank: bigint): number[] {
  let k = 0;
  for (; rank >= choose(n, k); k++) rank -= choose(n, k);
  return unset(rank, k);
}

// The trees taken, in their order

function tableOf(book: Book, id: string): Table {
  const table = book.trees.find((t) => t.id === id);
  if (!table) throw new Error(`no tree "${id}"`);
  return table;
}

/** Marks the trees taken, a bit each, in the planner's order. */
function which(book: Book, taken: string[]): bigint {
  return book.trees.reduce((marks, t, i) => (taken.indexOf(t.id) < 0 ? marks : marks + (ONE << big(i))), NONE);
}

function choices(book: Book): bigint {
  return ONE << big(book.trees.length);
}

function takenOf(book: Book, marks: bigint): string[] {
  return book.trees.map((t) => t.id).filter((_, i) => (marks >> big(i)) % big(2) === ONE);
}

// Prompts

function among(book: Book, within: (id: string) => boolean): string[] {
  return book.prompts.filter(within);
}

function cameUp(book: Book, taken: string[], paths: Path[], answers: Sheet["answers"]): string[] {
  let up = book.general;
  paths.forEach((path, i) => {
    const ending = entry(tableOf(book, taken[i] as string).endings, path.ending);
    up = up.concat((ending && ending.prompts) || []);
    for (const id of path.cards) {
      const card = entry(book.cards, id);
      up = up.concat((card && card.prompts) || []);
    }
  });
  const known = told({ trees: book.trees, facts: book.facts, taken, answers, asked: [], units: book.units });
  const is = (fact: string): boolean => !!entry(known, fact);
  return among(book, (id) => {
    const fit = entry(book.fits, id) || {};
    return up.indexOf(id) >= 0 && (fit.presumes || []).every(is) && !(fit.unless || []).some(is);
  });
}

/** The places of those that pass. */
function places(ids: string[], pass: (id: string) => boolean): number[] {
  const out: number[] = [];
  ids.forEach((id, i) => {
    if (pass(id)) out.push(i);
  });
  return out;
}

function packPrompts(book: Book, p: Packer, up: string[], sheet: Sheet): void {
  const isUp = (id: string): boolean => up.indexOf(id) >= 0;
  const pick = (id: string): boolean | undefined => entry(sheet.picks, id);
  const isOn = (id: string): boolean => (isUp(id) ? pick(id) !== false : pick(id) === true);
  const rest = among(book, (id) => !isUp(id));
  const off = places(up, (id) => !isOn(id));
  const on = places(rest, isOn);
  const kept = among(book, isOn);
  const stars = places(kept, (id) => sheet.stars.indexOf(id) >= 0).slice(0, MOST_STARS);
  const d = up.length;
  const e = rest.length;
  const sets = set(off) * choose(e, on.length) + set(on);
  if (kept.length <= MOST_SHORT) {
    p.put(NONE, big(2));
    p.put(upTo(MOST_SHORT, stars), few(MOST_SHORT, MOST_STARS));
    let rank = NONE;
    eachSize(d, e, (a, r) => {
      if (a === on.length && r === off.length) return false;
      rank += choose(d, r) * choose(e, a);
      return true;
    });
    return p.put(rank + sets, few(d + e, MOST_SHORT));
  }
  p.put(ONE, big(2));
  p.put(big(off.length), big(d + 1));
  p.put(set(off), choose(d, off.length));
  p.put(big(on.length), big(e + 1));
  p.put(set(on), choose(e, on.length));
  p.put(upTo(kept.length, stars), few(kept.length, MOST_STARS));
}

/** The numbers of prompts put on and taken off that leave a short sheet, the usual ones first. */
function eachSize(d: number, e: number, go: (on: number, off: number) => boolean): void {
  for (let a = 0; a <= Math.min(e, MOST_SHORT); a++) {
    for (let r = Math.max(0, d + a - MOST_SHORT); r <= d; r++) if (!go(a, r)) return;
  }
}

function unpackPrompts(book: Book, u: Unpacker, up: string[], sheet: Sheet): boolean {
  const rest = among(book, (id) => up.indexOf(id) < 0);
  const d = up.length;
  const e = rest.length;
  const short = u.take(2) === 0;
  let off: number[] = [];
  let on: number[] = [];
  let stars = NONE;
  if (short) {
    stars = u.get(few(MOST_SHORT, MOST_STARS));
    let rank = u.get(few(d + e, MOST_SHORT));
    eachSize(d, e, (a, r) => {
      const ways = choose(d, r) * choose(e, a);
      if (rank >= ways) {
        rank -= ways;
        return true;
      }
      off = unset(rank / choose(e, a), r);
      on = unset(rank % choose(e, a), a);
      return false;
    });
  } else {
    const r = u.take(d + 1);
    off = unset(u.get(choose(d, r)), r);
    const a = u.take(e + 1);
    on = unset(u.get(choose(e, a)), a);
  }
  for (const i of off) sheet.picks[up[i] as string] = false;
  for (const i of on) sheet.picks[rest[i] as string] = true;
  const kept = among(book, (id) => {
    const pick = entry(sheet.picks, id);
    return pick === undefined ? up.indexOf(id) >= 0 : pick;
  });
  if (!short) {
    if (kept.length <= MOST_SHORT) return false;
    stars = u.get(few(kept.length, MOST_STARS));
  }
  for (const i of unUpTo(short ? MOST_SHORT : kept.length, stars)) {
    if (i >= kept.length) return false;
    sheet.stars.push(kept[i] as string);
  }
  return true;
}

// Paths of a tree, numbered

interface Group {
  count: bigint;
  room: bigint;
  answer: (i: bigint) => string[];
}

class Rooms {
  private readonly of: { [at: string]: bigint } = {};

  constructor(
    readonly table: Table,
    private readonly units: Tables | undefined,
  ) {}

  all(): bigint {
    return this.room(this.table.start);
  }

  private room(at: string): bigint {
    const known = entry(this.of, at);
    if (known !== undefined) return known;
    const row = entry(this.table.questions, at);
    let n = ONE;
    for (const g of row ? this.groups(row) : []) n += g.count * g.room;
    return (this.of[at] = n);
  }

  private routed(row: TableRow): bigint {
    let most = NONE;
    for (const to of [row.go || ""].concat((row.routes || []).map((r) => r.go))) {
      if (to && this.room(to) > most) most = this.room(to);
    }
    return most;
  }

  private groups(row: TableRow): Group[] {
    const out: Group[] = [];
    const add = (count: bigint, room: bigint, answer: (i: bigint) => string[]): void => {
      if (count > NONE) out.push({ count, room, answer });
    };
    const single = (id: string, go?: string): void => add(ONE, go ? this.room(go) : this.routed(row), () => [id]);
    const m = row.measure;
    if (m) {
      add(big(answersOf(m)), this.routed(row), (i) => [named(this.units as Tables, m, Number(i))]);
      for (const like of m.likes || []) single(like.id);
    } else if (row.any) {
      const { free, own, alone } = kinds(row);
      own.forEach((first, i) => {
        const others = free.concat(own.slice(i + 1));
        add(power(others.length), this.room(first.go as string), (bits) => ticked(row, others, bits, first));
      });
      add(power(free.length) - ONE, this.routed(row), (i) => ticked(row, free, i + ONE));
      for (const a of alone) single(a.id, a.go);
    } else for (const a of row.answers || []) single(a.id, a.go);
    if (row.skip) single(SKIP, row.skip);
    return out;
  }

  /** The number of an answer's group, and its number in there. */
  private place(row: TableRow, chosen: string[]): [number, bigint] {
    const id = chosen[0] as string;
    if (isSkip(row, chosen)) return [this.groups(row).length - 1, NONE];
    if (row.measure) {
      const like = (row.measure.likes || []).findIndex((l) => l.id === id);
      if (like >= 0) return [1 + like, NONE];
      const v = amount(row.measure, id, this.units);
      return [0, refused(v) ? NONE : big(stepOf(row.measure, v.value))];
    }
    if (!row.any) return [(row.answers || []).findIndex((a) => a.id === id), NONE];
    const { free, own, alone } = kinds(row);
    const is = (a: TableAnswer): boolean => chosen.indexOf(a.id) >= 0;
    const bits = (of: TableAnswer[]): bigint => of.reduce((n, a, i) => (is(a) ? n + power(i) : n), NONE);
    const first = own.findIndex(is);
    if (first >= 0) return [first, bits(free.concat(own.slice(first + 1)))];
    const n = bits(free);
    if (n > NONE) return [own.length, n - ONE];
    return [own.length + (free.length ? 1 : 0) + alone.findIndex(is), NONE];
  }

  rank(path: Path): bigint {
    let out = NONE;
    for (const step of path.steps) {
      const row = entry(this.table.questions, step.question) as TableRow;
      const [k, i] = this.place(row, step.chosen);
      const groups = this.groups(row);
      out += ONE + i * (groups[k] as Group).room;
      for (const g of groups.slice(0, k)) out += g.count * g.room;
    }
    return out;
  }

  /** The answers of a path; null where the number stands for none. */
  unrank(rank: bigint): Answers | null {
    const out: Answers = {};
    for (;;) {
      const path = walk(this.table, out, this.units);
      if (path.ending || rank === NONE) return rank === NONE ? out : null;
      if (rank >= this.room(path.open)) return null;
      rank -= ONE;
      for (const g of this.groups(entry(this.table.questions, path.open) as TableRow)) {
        if (rank < g.count * g.room) {
          out[path.open] = g.answer(rank / g.room);
          rank %= g.room;
          break;
        }
        rank -= g.count * g.room;
      }
    }
  }
}

function answersOf(m: Measure): number {
  return Math.round((m.to - m.from) / m.step) + 1;
}

function stepOf(m: TableMeasure, value: number): number {
  return Math.round((value - m.from) / m.step);
}

function power(n: number): bigint {
  return BigInt(2 ** n);
}

function kinds(row: TableRow): { free: TableAnswer[]; own: TableAnswer[]; alone: TableAnswer[] } {
  const all = row.answers || [];
  const alone = all.filter((a) => a.alone);
  return { free: all.filter((a) => !a.alone && !a.go), own: all.filter((a) => !a.alone && a.go), alone };
}

/** A set in the order of the file: which of the others are ticked are the bits, the first lowest. */
function ticked(row: TableRow, others: TableAnswer[], bits: bigint, first?: TableAnswer): string[] {
  const on = (a: TableAnswer): boolean => {
    const i = others.indexOf(a);
    return i >= 0 && (bits / power(i)) % big(2) === ONE;
  };
  return (row.answers || []).filter((a) => a === first || on(a)).map((a) => a.id);
}
