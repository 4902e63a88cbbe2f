// The sheet's code: the browser's copy of builder/sheetcode, which is the
// reference and says what is in a code. It knows no page.

import { Tables, refused, sayingOf, sayings } from "../sums/quantity";
import { Facts, by, told } from "../walk/told";
import { Answers, Path, SKIP, Table, TableAnswer, TableRow, addOnce, amount, entry, isSkip, walk } from "../walk/walker";

// Whole numbers of any size. Their literals are newer than the browsers that the script is written down for.
declare function BigInt(x: number | string): bigint;
const big = (x: number | string): bigint => BigInt(x);
const NONE = big(0);
const ONE = big(1);

/** What both ends must know alike. */
export interface Book {
  /** The edition's mark. */
  edition: number;
  /** Trees that the planner offers, in its order, each with the number of its paths. */
  paths: [string, string][];
  /** Of these trees, in the same order, those that a sheet has; others need not be there. */
  trees: Table[];
  /** General ones first, then in the order of the themes. */
  prompts: string[];
  general: string[];
  cards: { [id: string]: { prompts?: string[] } };
  /** What can be told, and by prompt what it hangs on. */
  facts: Facts;
  fits: { [prompt: string]: { presumes?: string[]; unless?: string[] } };
  units?: Tables | undefined;
  /** Those besides the reader's own, each with the fact that its choice tells. */
  voices: Voice[];
  /** What can stand under "About me": facts by id, answers by "tree/question". */
  about: { facts: Ids; lines: { [question: string]: { list?: Ids; says?: Ids } } };
}

/** What has words, by id. What the words are has no say in a code. */
interface Ids {
  [id: string]: unknown;
}

export interface Voice {
  id: string;
  tells?: string;
}

/** What a code holds. Answers are only those on the path; stars are in the order of the book. */
export interface Sheet {
  taken: string[];
  answers: { [tree: string]: Answers };
  picks: { [prompt: string]: boolean };
  stars: string[];
  /** Missing where the reader speaks in their own, and where no line was taken off. */
  voice?: string | undefined;
  unsaid?: string[];
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
  return spell(numberOf(book, sheet));
}

function numberOf(book: Book, sheet: Sheet): bigint {
  const paths = pathsOf(book, sheet);
  const off = offOf(sayable(book, paths), sheet.unsaid || []);
  const voice = book.voices.findIndex((v) => v.id === sheet.voice) + 1;
  const p = new Packer();
  p.put(big(book.edition), EDITIONS);
  p.put(big(voice + (off.places.length ? spoken(book) : 0)), big(2 * spoken(book)));
  packPrompts(book, p, cameUp(book, paths, sheet), sheet);
  packPaths(book, p, paths, off);
  return p.number();
}

/** In how many voices a reader can speak. */
function spoken(book: Book): number {
  return book.voices.length + 1;
}

/** The last digit needs no base, so paths that are not the last say how long they are. */
function packPaths(book: Book, p: Packer, paths: Paths, off: Off): void {
  const rank = shelfOf(book).rank(book, paths);
  if (!off.places.length) return p.put(rank, NONE);
  const long = symbolsOf(rank);
  p.put(big(long), big(shelfOf(book).symbols + 1));
  p.put(rank, power(5 * long));
  p.put(upTo(off.of, off.places) - ONE, NONE);
}

/** The trees of which a code has paths: they must be in the book before it is read. */
export function named(book: Book, text: string): string[] | NoSheet {
  const n = opened(book, text);
  return "refused" in n ? n : shelfOf(book).named(n.paths) || { refused: "mistyped" };
}

interface Opened {
  number: bigint;
  voice: string | undefined;
  held: Held;
  paths: bigint;
  /** Which lines were taken off, if any. */
  off: bigint | undefined;
}

function opened(book: Book, text: string): Opened | NoSheet {
  const number = unspell(text);
  if (number === null) return { refused: "mistyped" };
  const u = new Unpacker(number);
  if (u.get(EDITIONS) !== big(book.edition)) return { refused: "other edition" };
  const voice = u.take(2 * spoken(book));
  const held = unpackPrompts(book, u);
  const isOff = voice >= spoken(book);
  const paths = isOff ? u.get(power(5 * u.take(shelfOf(book).symbols + 1))) : u.rest;
  const speaks = book.voices[(voice % spoken(book)) - 1];
  return { number, voice: speaks && speaks.id, held, paths, off: isOff ? u.rest : undefined };
}

/** Reads a code as a person typed it. */
export function decode(book: Book, text: string): Sheet | NoSheet {
  const n = opened(book, text);
  if ("refused" in n) return n;
  const answers = shelfOf(book).unrank(book, n.paths);
  if (!answers) return { refused: "mistyped" };
  const sheet: Sheet = { taken: book.trees.map((t) => t.id).filter((id) => entry(answers, id)), answers, picks: {}, stars: [] };
  if (n.voice) sheet.voice = n.voice;
  const paths = pathsOf(book, sheet);
  if (n.off !== undefined) {
    const unsaid = unsaidOf(sayable(book, paths), n.off);
    if (!unsaid) return { refused: "mistyped" };
    sheet.unsaid = unsaid;
  }
  put(book, n.held, cameUp(book, paths, sheet), sheet);
  return numberOf(book, sheet) === n.number ? sheet : { refused: "mistyped" };
}

interface Paths {
  [tree: string]: Path;
}

function pathsOf(book: Book, sheet: Sheet): Paths {
  const out: Paths = {};
  for (const t of book.trees) if (sheet.taken.indexOf(t.id) >= 0) out[t.id] = walk(t, entry(sheet.answers, t.id) || {}, book.units);
  return out;
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

  /** The last digit needs no base. */
  number(): bigint {
    let n = NONE;
    for (let i = this.digits.length - 1; i >= 0; i--) n = n * (this.bases[i] as bigint) + (this.digits[i] as bigint);
    return n;
  }
}

class Unpacker {
  constructor(public rest: bigint) {}

  get(base: bigint): bigint {
    if (base === NONE) return NONE;
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
  for (; k < n && rank >= choose(n, k); k++) rank -= choose(n, k);
  return unset(rank, k);
}

// The trees taken and the path in each

let shelf: { of: Book["paths"]; is: Shelf } | undefined;

/** The last one is kept: to number all paths of a tree takes longest. */
function shelfOf(book: Book): Shelf {
  if (!shelf || shelf.of !== book.paths) shelf = { of: book.paths, is: new Shelf(book.paths) };
  return shelf.is;
}

/** How many symbols, of five bits each, a number has; 0 has none. */
function symbolsOf(n: bigint): number {
  let out = 0;
  for (; n > NONE; n /= big(32)) out++;
  return out;
}

class Shelf {
  /** How long the largest number is that paths can have. */
  readonly symbols: number;
  private readonly places: { id: string; all: bigint }[];
  /** By tree and number of trees: how many there are from that tree on. */
  private readonly of: bigint[][];
  private readonly rooms: { [tree: string]: Rooms } = {};

  constructor(paths: Book["paths"]) {
    const placed = paths.map(([id, all], i) => ({ id, all: big(all), i }));
    this.places = placed.sort((a, b) => (a.all === b.all ? a.i - b.i : a.all < b.all ? 1 : -1));
    this.of = [[ONE, ...this.places.map(() => NONE)]];
    for (const p of this.places.slice().reverse()) {
      const after = this.of[0] as bigint[];
      this.of.unshift(after.map((n, k) => n + (k ? (after[k - 1] as bigint) * p.all : NONE)));
    }
    this.symbols = symbolsOf((this.of[0] as bigint[]).reduce((sum, n) => sum + n, NONE));
  }

  /** How many there are with k trees, from the i-th on. */
  private many(i: number, k: number): bigint {
    return (this.of[i] as bigint[])[k] as bigint;
  }

  /** The paths of a tree that is in the book. */
  private roomsOf(book: Book, id: string): Rooms {
    const known = entry(this.rooms, id);
    return known || (this.rooms[id] = new Rooms(book.trees.find((t) => t.id === id) as Table, book.units));
  }

  rank(book: Book, paths: Paths): bigint {
    let k = Object.keys(paths).length;
    let out = NONE;
    for (let j = 0; j < k; j++) out += this.many(0, j);
    let within = ONE;
    this.places.forEach(({ id, all }, i) => {
      const path = entry(paths, id);
      if (!path) return;
      out += (this.many(i + 1, k) + this.roomsOf(book, id).rank(path)) * within;
      within *= all;
      k--;
    });
    return out;
  }

  /** The trees, each with the number of its path; null where the number stands for none. */
  private taken(rank: bigint): { id: string; path: bigint }[] | null {
    const most = this.places.length;
    let k = 0;
    for (; k <= most && rank >= this.many(0, k); k++) rank -= this.many(0, k);
    if (k > most) return null;
    const out: { id: string; path: bigint }[] = [];
    this.places.forEach(({ id, all }, i) => {
      const before = this.many(i + 1, k);
      if (!k || rank < before) return;
      rank -= before;
      out.push({ id, path: rank % all });
      rank /= all;
      k--;
    });
    return out;
  }

  named(rank: bigint): string[] | null {
    const taken = this.taken(rank);
    return taken && taken.map((t) => t.id);
  }

  /** The answers by tree; null where the number stands for none. */
  unrank(book: Book, rank: bigint): Sheet["answers"] | null {
    const out: Sheet["answers"] = {};
    const taken = this.taken(rank);
    if (!taken) return null;
    for (const { id, path } of taken) {
      const answers = this.roomsOf(book, id).unrank(path);
      if (!answers) return null;
      out[id] = answers;
    }
    return out;
  }
}

// Prompts

function cameUp(book: Book, paths: Paths, { answers, voice }: Sheet): string[] {
  let up = book.general;
  const trees = book.trees.filter((t) => entry(paths, t.id));
  for (const t of trees) {
    const path = paths[t.id] as Path;
    const ending = entry(t.endings, path.ending);
    up = up.concat((ending && ending.prompts) || []);
    for (const id of path.cards) {
      const card = entry(book.cards, id);
      up = up.concat((card && card.prompts) || []);
    }
  }
  const known = told({ trees: book.trees, facts: book.facts, taken: trees.map((t) => t.id), answers, asked: [], units: book.units });
  const is = (fact: string): boolean => !!entry(known, fact) || book.voices.some((v) => v.id === voice && v.tells === fact);
  return book.prompts.filter((id) => {
    const fit = entry(book.fits, id) || {};
    return up.indexOf(id) >= 0 && (fit.presumes || []).every(is) && !(fit.unless || []).some(is);
  });
}

const FORMS = 32;
const MOST_CHANGED = 7;
const MANY_CHANGED = MOST_CHANGED + 1;
const SHORT_FORMS = big(FORMS - MANY_CHANGED - 1);
const STARS_SHORT = few(MOST_SHORT, MOST_STARS);

function places(book: Book, pass: (id: string) => boolean): number[] {
  const out: number[] = [];
  book.prompts.forEach((id, i) => {
    if (pass(id)) out.push(i);
  });
  return out;
}

function packPrompts(book: Book, p: Packer, up: string[], sheet: Sheet): void {
  const isUp = (id: string): boolean => up.indexOf(id) >= 0;
  const isOn = (id: string): boolean => {
    const pick = entry(sheet.picks, id);
    return pick === undefined ? isUp(id) : pick;
  };
  const all = book.prompts.length;
  const changed = places(book, (id) => isOn(id) !== isUp(id));
  const kept = places(book, isOn);
  const t = changed.length;
  if (t > MOST_CHANGED && kept.length <= MOST_SHORT) {
    const rank = upTo(all, kept);
    p.put((rank % SHORT_FORMS) + big(MANY_CHANGED + 1), big(FORMS));
    p.put(rank / SHORT_FORMS, shortRest(book));
  } else {
    p.put(big(Math.min(t, MANY_CHANGED)), big(FORMS));
    if (t > MOST_CHANGED) p.put(big(t), big(all + 1));
    p.put(set(changed), choose(all, t));
  }
  const stars: number[] = [];
  kept.forEach((at, i) => {
    if (sheet.stars.indexOf(book.prompts[at] as string) >= 0 && stars.length < MOST_STARS) stars.push(i);
  });
  if (stars.every((i) => i < MOST_SHORT)) return p.put(upTo(MOST_SHORT, stars), STARS_SHORT + ONE);
  p.put(STARS_SHORT, STARS_SHORT + ONE);
  p.put(upTo(all, stars), few(all, MOST_STARS));
}

function shortRest(book: Book): bigint {
  return (few(book.prompts.length, MOST_SHORT) + SHORT_FORMS - ONE) / SHORT_FORMS;
}

/** Prompts that changed or, where short, that are on the sheet; stars are among those on the sheet. */
interface Held {
  prompts: number[];
  short: boolean;
  stars: number[];
}

function unpackPrompts(book: Book, u: Unpacker): Held {
  const all = book.prompts.length;
  let t = u.take(FORMS);
  const short = t > MANY_CHANGED;
  let prompts: number[];
  if (short) prompts = unUpTo(all, u.get(shortRest(book)) * SHORT_FORMS + big(t - MANY_CHANGED - 1));
  else {
    if (t === MANY_CHANGED) t = u.take(all + 1);
    prompts = unset(u.get(choose(all, t)), t);
  }
  const stars = u.get(STARS_SHORT + ONE);
  return { prompts, short, stars: stars < STARS_SHORT ? unUpTo(MOST_SHORT, stars) : unUpTo(all, u.get(few(all, MOST_STARS))) };
}

function put(book: Book, held: Held, up: string[], sheet: Sheet): void {
  const kept: string[] = [];
  book.prompts.forEach((id, i) => {
    const isUp = up.indexOf(id) >= 0;
    const on = held.prompts.indexOf(i) >= 0 !== (!held.short && isUp);
    if (on) kept.push(id);
    if (on !== isUp) sheet.picks[id] = on;
  });
  for (const i of held.stars) if (i < kept.length) sheet.stars.push(kept[i] as string);
}

// Lines of "About me" that were taken off

/** All that can stand there of a sheet with these paths, in order of name. */
function sayable(book: Book, paths: Paths): string[] {
  const { facts, lines } = book.about;
  const out: string[] = [];
  const add = (ids: string[]): void => addOnce(out, ids);
  const stands = (ids: string[]): string[] => ids.filter((id) => entry(facts, id));
  for (const t of book.trees) {
    const path = entry(paths, t.id);
    for (const step of path ? path.steps : []) {
      const row = entry(t.questions, step.question) as TableRow;
      add(stands(by(row, step.chosen)));
      const id = `${t.id}/${step.question}`;
      const line = entry(lines, id);
      if (!line) continue;
      if (row.measure) add(row.tells || []); // an amount is said under its fact
      if (step.chosen.some((a) => entry(line.list || {}, a))) add([id]);
      if (!row.measure) add(step.chosen.filter((a) => entry(line.says || {}, a)).map((a) => `${id}/${a}`));
    }
  }
  return out.sort();
}

/** Which of so many lines were taken off. */
interface Off {
  of: number;
  places: number[];
}

/** What is no longer told stands nowhere. */
function offOf(all: string[], unsaid: string[]): Off {
  const places = all.map((id, i) => (unsaid.indexOf(id) >= 0 ? i : -1)).filter((i) => i >= 0);
  return { of: all.length, places };
}

/** The lines that a number stands for; null where it stands for none. */
function unsaidOf(all: string[], rank: bigint): string[] | null {
  return rank + ONE < power(all.length) ? unUpTo(all.length, rank + ONE).map((i) => all[i] as string) : null;
}

// Paths of a tree, numbered

interface Group {
  count: bigint;
  room: bigint;
  answer: (i: bigint) => string[];
}

class Rooms {
  private readonly of: { [at: string]: bigint } = {};
  readonly all: bigint;

  constructor(
    readonly table: Table,
    private readonly units: Tables | undefined,
  ) {
    this.all = this.room(table.start);
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
      const { texts } = sayings(this.units as Tables, m);
      add(big(texts.length), this.routed(row), (i) => [texts[Number(i)] as string]);
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
      return [0, refused(v) ? NONE : big(sayingOf(this.units as Tables, row.measure, v))];
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
