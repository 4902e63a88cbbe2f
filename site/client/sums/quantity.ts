// Reads and shows lengths, masses, angles, slopes and counts as builder/quantity
// does: same table, same rules, same words. That package is the reference and
// explains why; a Go test runs both over the same answers and compares. No page,
// no locale, no clock here, so that test can run this file alone.

import { Gaps, fill } from "../words/fill";
import { Kind, Measure, Tables, Unit, Value } from "../types/quantity";

export type { Kind, Measure, Tables, Unit, Value };

/** Whether the script is for another language than the program's own, in which amounts stand as they are kept. The bundler says it. */
declare const OTHER_LANGUAGE: boolean;

/** The amount as it was given, before any rounding to a step. */
export function exact(v: Value): number {
  return v.value + (v.rest || 0);
}

/** Why an answer was not taken: a code for programs, a text for the reader. */
export interface Refusal {
  code: string;
  text: string;
  choices?: string[]; // what a number without a unit may stand for
}

export function refused(r: Value | Refusal): r is Refusal {
  return "text" in r;
}

// Units

const RATIO = "1:n";

function own<T>(map: { [key: string]: T }, key: string): T | undefined {
  return Object.prototype.hasOwnProperty.call(map, key) ? map[key] : undefined;
}

function unitOf(t: Tables, code: string): Unit {
  const u = t.units.find((u) => u.code === code);
  if (!u) throw new Error(`no unit has the code "${code}"`);
  return u;
}

function spelled(t: Tables, word: string): Unit | undefined {
  const code = OTHER_LANGUAGE && t.own && t.own.spell && own(t.own.spell, word);
  return code ? unitOf(t, code) : t.units.find((u) => u.spell !== undefined && u.spell.indexOf(word) >= 0);
}

function canonical(u: Unit, x: number): number {
  return u.code === RATIO ? 1 / x : (x * u.num) / u.den;
}

function fromCanonical(u: Unit, c: number): number {
  return u.code === RATIO ? 1 / c : (c * u.den) / u.num;
}

function rise(degrees: number): number {
  if (Math.abs(degrees) >= 90) return degrees < 0 ? -Infinity : Infinity;
  return Math.tan(degrees * (Math.PI / 180));
}

function across(c: number, from: Kind, to: Kind): number {
  if (from === "slope" && to === "angle") return Math.atan(c) * (180 / Math.PI);
  if (from === "angle" && to === "slope") return rise(c);
  return c;
}

function fits(a: Kind, b: Kind): boolean {
  return a === b || (a === "slope" && b === "angle") || (a === "angle" && b === "slope");
}

// Rounding

const TINY = 1e-9;

function nearest(x: number): number {
  const k = Math.floor(Math.abs(x) + 0.5 + TINY);
  return x < 0 && k !== 0 ? -k : k;
}

function even(x: number): boolean {
  return Math.abs(x - nearest(x)) <= 1e-6;
}

function clean(x: number): number {
  return nearest(x * 1e9) / 1e9;
}

// Reading: from text to tokens

interface Token {
  kind: "n" | "f" | "w" | ""; // number, fraction below 1, word; "" past the end
  word: string;
  num: number;
  text: string; // of a number: how it is usually written
  whole: boolean;
  near: boolean; // touches what stands before it
}

interface Cut {
  token?: Token;
  end: number;
  code?: string;
}

const nothing: Token = { kind: "", word: "", num: 0, text: "", whole: false, near: false };

function scan(t: Tables, text: string): { tokens: Token[]; code: string } {
  const s = fold(t, text);
  const tokens: Token[] = [];
  if (s === undefined) return { tokens, code: "long" };
  for (let i = 0; i < s.length; ) {
    const cut = next(t, s, i);
    if (cut.code) return { tokens: [], code: cut.code };
    if (cut.token) {
      cut.token.near = i > 0 && s[i - 1] !== " ";
      tokens.push(cut.token);
    }
    i = cut.end;
  }
  return { tokens, code: "" };
}

/** Characters in their usual form, letters small; undefined where there are too many. */
function fold(t: Tables, text: string): string[] | undefined {
  const out: string[] = [];
  let count = 0;
  for (const c of text) {
    if (++count > t.longest) return undefined;
    let to = own(t.fold, c);
    if (OTHER_LANGUAGE && to === undefined && t.own && t.own.fold) to = own(t.own.fold, c);
    if (to === undefined) out.push(c >= "A" && c <= "Z" ? c.toLowerCase() : c);
    else if (to !== "") out.push(to);
  }
  return out;
}

function next(t: Tables, s: string[], i: number): Cut {
  const c = s[i]!;
  if (c === " ") return { end: i + 1 };
  if (digit(s, i) || (c === "." && digit(s, i + 1))) return number(t, s, i);
  if (c === "." && (letter(t, s, i - 1) || digit(s, i - 1))) return { end: i + 1 };
  if (c === "'" && s[i + 1] === "'") return { token: { ...nothing, kind: "w", word: '"' }, end: i + 2 };
  const f = own(t.fractions, c);
  if (f) return { token: below(f[0], f[1]), end: i + 1 };
  let end = i + 1;
  while (letter(t, s, i) && letter(t, s, end)) end++;
  return { token: { ...nothing, kind: "w", word: s.slice(i, end).join("") }, end };
}

function digit(s: string[], i: number): boolean {
  const c = s[i];
  return c !== undefined && c.length === 1 && c >= "0" && c <= "9";
}

function letter(t: Tables, s: string[], i: number): boolean {
  const c = s[i];
  if (OTHER_LANGUAGE && c !== undefined && t.own && t.own.letters && t.own.letters.indexOf(c) >= 0) return true;
  return c !== undefined && c.length === 1 && c >= "a" && c <= "z";
}

function number(t: Tables, s: string[], i: number): Cut {
  let end = i;
  while (digit(s, end) || ((s[end] === "." || s[end] === ",") && digit(s, end + 1))) end++;
  const raw = s.slice(i, end).join("");
  if (raw.length > t.digits) return { end, code: "digits" };
  const whole = raw.indexOf(".") < 0 && raw.indexOf(",") < 0;
  if (whole && s[end] === "/" && digit(s, end + 1)) return fraction(s, raw, end + 1);
  const d = decimal(t, raw);
  if (d.code) return { end, code: d.code };
  return { token: { ...nothing, kind: "n", num: Number(d.raw), text: usual(d.raw), whole }, end };
}

function decimal(t: Tables, raw: string): { raw: string; code?: string } {
  const comma = OTHER_LANGUAGE && t.own && t.own.comma;
  const point = comma ? "," : ".";
  const at = raw.indexOf(comma ? "." : ",");
  if (at < 0) return raw.split(point).length > 2 ? { raw, code: "number" } : { raw: OTHER_LANGUAGE ? raw.replace(point, ".") : raw };
  const before = raw.slice(0, at);
  const after = raw.slice(at + 1);
  if (/[.,]/.test(after) || before.indexOf(point) >= 0) return { raw, code: "comma" };
  if (after.length === 3 && (!OTHER_LANGUAGE || before) && before.length <= 3 && before[0] !== "0") return { raw, code: "comma" };
  return { raw: before + "." + after };
}

function fraction(s: string[], above: string, i: number): Cut {
  let end = i;
  while (digit(s, end)) end++;
  const n = Number(above);
  const d = Number(s.slice(i, end).join(""));
  if (end - i > 4 || n === 0 || n >= d) return { end, code: "fraction" };
  return { token: below(n, d), end };
}

function below(n: number, d: number): Token {
  return { ...nothing, kind: "f", num: n / d, text: `${n}/${d}` };
}

function usual(raw: string): string {
  const out = raw.replace(/^0+/, "");
  return out === "" || out[0] === "." ? "0" + out : out;
}

// Reading: from tokens to an amount

interface Part {
  num: number;
  text: string;
  whole: boolean;
  below: boolean; // only a fraction
  unit: Unit | undefined;
}

class Parser {
  at = 0;
  minus = false;
  num = 0; // canonical, of unit's kind
  unit: Unit;
  said = ""; // without the sign
  code: string;
  gaps: Gaps = {};
  private readonly toks: Token[];
  private readonly kind: Kind;

  constructor(private readonly t: Tables, private readonly m: Measure, text: string) {
    this.unit = unitOf(t, m.unit);
    this.kind = this.unit.kind;
    const { tokens, code } = scan(t, text);
    this.toks = tokens;
    this.code = code;
    if (code === "") this.read();
  }

  private fail(code: string, gaps: Gaps = {}): void {
    if (this.code !== "") return;
    this.code = code;
    this.gaps = gaps;
  }

  private peek(n: number): Token {
    return this.toks[this.at + n] || nothing;
  }

  private read(): void {
    if (this.toks.length === 0) return this.fail("empty");
    if (!this.toks.some((t) => t.kind !== "w")) return this.fail("number");
    const sign = this.peek(0).word;
    if (sign === "-" || sign === "+") {
      this.minus = sign === "-";
      this.at++;
    }
    if (this.ratio()) return;
    const first = this.part();
    if (this.code !== "" || this.at === this.toks.length) return this.single(first);
    this.separator(first);
    const second = this.part();
    if (this.code === "" && this.at < this.toks.length) this.stray();
    this.double(first, second);
  }

  private ratio(): boolean {
    const by = this.peek(1).word;
    const said = by === ":" || (fits("slope", this.kind) && (by === "to" || by === "in"));
    if (this.peek(0).kind !== "n" || this.peek(2).kind !== "n" || !said) return false;
    const n = this.peek(2).num;
    this.unit = unitOf(this.t, RATIO);
    this.said = withUnit(this.unit, this.peek(2).text);
    this.allowed();
    this.num = canonical(this.unit, n);
    if (this.peek(0).num !== 1 || n === 0 || this.toks.length !== this.at + 3) this.fail("ratio");
    return true;
  }

  private part(): Part {
    const out = this.amount();
    const n = this.peek(0).word === "-" && this.peek(0).near && this.peek(1).near ? 1 : 0;
    for (const long of [2, 1]) {
      let word = this.peek(n).word;
      if (long === 2) word += " " + this.peek(n + 1).word;
      const u = spelled(this.t, word);
      if (u) {
        this.at += n + long;
        out.unit = u;
        return out;
      }
    }
    return out;
  }

  private amount(): Part {
    const t = this.peek(0);
    if (t.kind === "n" || t.kind === "f") this.at++;
    else this.stray();
    const out: Part = { num: t.num, text: t.text, whole: t.whole, below: t.kind === "f", unit: undefined };
    const w = this.peek(0);
    const n = (w.word === "-" && w.near && this.peek(1).near) || w.word === "and" ? 1 : 0;
    const f = this.peek(n);
    if (f.kind === "f" && t.kind === "n") {
      if (!t.whole) this.fail("fraction");
      this.at += n + 1;
      out.num += f.num;
      out.text += " " + f.text;
      out.whole = false;
    }
    return out;
  }

  private separator(first: Part): void {
    const w = this.peek(0).word;
    if (first.unit && (w === "," || w === "-" || w === "and") && this.peek(1).kind !== "") this.at++;
  }

  private stray(): void {
    const t = this.peek(0);
    const after = this.peek(1).kind;
    const joins = (t.word === "-" || t.word === "and") && (after === "n" || after === "f");
    if (t.kind === "n" || t.kind === "f" || joins) this.fail("several");
    else if (t.word === "/") this.fail("fraction");
    else if (t.word === ":" && fits("slope", this.kind)) this.fail("ratio");
    else if (spelled(this.t, t.word)) this.fail("mixed");
    else this.fail("word");
  }

  private single(one: Part): void {
    this.unit = one.unit || unitOf(this.t, this.m.unit);
    this.num = canonical(this.unit, one.num);
    this.said = withUnit(this.unit, one.text);
    this.allowed();
    if (one.unit) return;
    if (one.below && fits("slope", this.unit.kind)) this.fail("ratio");
    else if (this.m.accept.length > 1) this.fail("bare");
  }

  private double(major: Part, minor: Part): void {
    if (this.code !== "") return;
    const u = major.unit;
    const code = minor.unit ? minor.unit.code : "";
    if (!u || (code === "" && !u.bare) || code === u.code) return this.fail("several");
    if ((code !== "" && code !== u.sub) || !major.whole) return this.fail("mixed");
    this.unit = u;
    this.allowed();
    const per = u.per!;
    const sub = unitOf(this.t, u.sub!);
    if (minor.num >= per) this.fail("parts", { few: numeral(this.t, format(per, 1)), sub: this.t.names[sub.code]!, major: this.t.names[u.code]! });
    this.num = canonical(sub, major.num * per + minor.num);
    this.said = withUnit(u, major.text) + " " + withUnit(sub, minor.text);
  }

  private allowed(): void {
    if (!fits(this.unit.kind, this.kind)) {
      this.fail("kind", { given: this.t.kinds[this.unit.kind]!, needed: this.t.kinds[this.kind]! });
    } else if (this.m.accept.indexOf(this.unit.code) < 0) {
      this.fail("unit");
    }
  }
}

/** Reads what a person typed, without looking at the measure's limits and step. */
export function parse(t: Tables, text: string, m: Measure): Value | Refusal {
  const p = new Parser(t, m, text);
  const u = unitOf(t, m.unit);
  if (p.code === "bare") return ask(t, text, m);
  if (p.code !== "") return refuse(t, m, p.code, u, p.gaps);
  const c = across(p.num, p.unit.kind, u.kind);
  const minus = p.minus && c !== 0;
  return { kind: u.kind, value: minus ? -c : c, unit: p.unit.code, said: (minus ? "-" : "") + p.said };
}

/** Reads an amount as it is kept, the same in every language. */
export const read = OTHER_LANGUAGE ? readKept : typed;

function readKept({ own: _, ...t }: Tables, text: string, m: Measure): Value | Refusal {
  return typed(t, text, m);
}

/** What is kept of an amount that is written: as it stands, where any language reads it so. */
export function keep(t: Tables, text: string, m: Measure): string {
  if (!t.own) return text;
  const v = typed(t, text, m);
  if (refused(v)) return text;
  const same = read(t, text, m);
  return !refused(same) && exact(same) === exact(v) && same.unit === v.unit ? text : (v.said as string);
}

/** An amount that is kept, as a reader may have written it. */
export function written(t: Tables, text: string, m: Measure): string {
  const v = t.own && refused(typed(t, text, m)) && read(t, text, m);
  return v && !refused(v) ? alone(t, v, m) : text;
}

/** Reads what is written on a page in the language, checks the limits and rounds to the measure's step. */
export function typed(t: Tables, text: string, m: Measure): Value | Refusal {
  const v = parse(t, text, m);
  if (refused(v)) return v;
  const u = unitOf(t, v.unit);
  const k = nearest(v.value / m.step);
  if (v.value < 0 && m.from >= 0) return refuse(t, m, "negative", u);
  if (k < nearest(m.from / m.step) || k > nearest(m.to / m.step)) return refuse(t, m, "range", u);
  if (v.kind === "count" && even(m.step) && !even(v.value)) return refuse(t, m, "whole", u);
  const value = clean(k * m.step);
  return { ...v, value, rest: v.value - value };
}

// Numbering: see builder/quantity/sayings.go

/** The amounts of a measure as people write them, by number. */
export interface Sayings {
  texts: string[];
  nums: number[]; // canonical, before rounding to a step
  first: number[]; // by unit and step: where its texts begin
}

const MOST_RATIO = 100;
const listed: { of: Measure; are: Sayings }[] = [];

/** Lists them once for each measure. */
export function sayings(t: Tables, m: Measure): Sayings {
  const known = listed.find((l) => l.of === m);
  if (known) return known.are;
  const are: Sayings = { texts: [], nums: [], first: [] };
  for (const code of m.accept) {
    const list = new StepTexts(t, m, unitOf(t, code));
    list.usual();
    list.texts.forEach((texts, k) => {
      if (!texts.length) list.fill(k);
      are.first.push(are.texts.length);
      are.texts.push(...texts);
      are.nums.push(...(list.nums[k] as number[]));
    });
  }
  are.first.push(are.texts.length);
  listed.push({ of: m, are });
  return are;
}

/** The number of what an accepted amount is kept as. */
export function sayingOf(t: Tables, m: Measure, v: Value): number {
  const s = sayings(t, m);
  const k = Math.min(Math.max(indexOf(m, v.value), 0), answersOf(m) - 1);
  let from = m.accept.indexOf(v.unit) * answersOf(m) + k;
  if (from < 0 || s.first[from] === s.first[from + 1]) from = k;
  let best = s.first[from] as number;
  const off = (i: number): number => Math.abs((s.nums[i] as number) - exact(v));
  for (let i = best; i < (s.first[from + 1] as number); i++) {
    if (s.texts[i] === v.said) return i;
    if (off(i) < off(best) - TINY) best = i;
  }
  return best;
}

function answersOf(m: Measure): number {
  return nearest((m.to - m.from) / m.step) + 1;
}

function indexOf(m: Measure, canonical: number): number {
  return nearest(canonical / m.step) - nearest(m.from / m.step);
}

class StepTexts {
  readonly texts: string[][] = [];
  readonly nums: number[][] = [];

  constructor(private readonly t: Tables, private readonly m: Measure, private readonly u: Unit) {
    for (let k = answersOf(m); k > 0; k--) {
      this.texts.push([]);
      this.nums.push([]);
    }
  }

  usual(): void {
    const { t, m, u } = this;
    if (u.code === RATIO) {
      for (let n = 1; n <= 10 * MOST_RATIO; n++) {
        if (n > MOST_RATIO && n % 10 !== 0) continue;
        this.put(n, 0);
        this.put(-n, 0);
      }
      return;
    }
    const from = this.counted(m.from);
    const to = this.counted(m.to);
    const step = this.counted(m.step);
    const grid = (g: number, d: number): void => {
      for (let j = Math.floor((from - step) / g); j <= Math.ceil((to + step) / g); j++) this.put(clean(j * g), d);
    };
    let g = step;
    if (!takesStep(t, u, m)) for (g = u.step; g * 10 <= step || (to - from) / g > 10 * answersOf(m); ) g *= 10;
    grid(g, 0);
    const d = partsOf(g);
    if (!u.parts || d <= 1) return;
    grid(0.25, 0);
    grid(0.1, 0);
    grid(g, d);
  }

  fill(k: number): void {
    const { m } = this;
    const at = clean((nearest(m.from / m.step) + k) * m.step);
    const x = this.counted(at === 0 && this.u.code === RATIO ? m.step / 4 : at);
    for (const d of [1, 2, 4, 10, 20, 100, 1e3, 1e4, 1e5, 1e6]) {
      this.put(nearest(x * d) / d, 0);
      if ((this.texts[k] as string[]).length) return;
    }
  }

  private counted(c: number): number {
    const u = counter(this.t, this.u);
    return fromCanonical(u, across(c, unitOf(this.t, this.m.unit).kind, u.kind));
  }

  private put(x: number, d: number): void {
    const { t, m } = this;
    const u = counter(t, this.u);
    let n = Math.abs(x);
    let text = "";
    if (this.u.bare) {
      const per = this.u.per as number;
      const whole = Math.floor(n / per + TINY);
      text = withUnit(this.u, decimals(whole));
      n = clean(n - whole * per);
      if (n > 0) text += " ";
    }
    if (n > 0 || !text) text += withUnit(u, d > 0 ? mixed(n, d) : decimals(n));
    text = signed(x, text);
    const c = across(canonical(u, x), u.kind, unitOf(t, m.unit).kind);
    const k = indexOf(m, c);
    const texts = this.texts[k];
    if (!texts || (x < 0 && m.from >= 0) || texts.indexOf(text) >= 0) return;
    texts.push(text);
    (this.nums[k] as number[]).push(c);
  }
}

function decimals(x: number): string {
  return x.toFixed(6).replace(/\.?0+$/, "");
}

// Refusing

function refuse(t: Tables, m: Measure, code: string, u: Unit, more: Gaps = {}): Refusal {
  return { code, text: filled(t, code, { ...hint(t, m, u), units: list(t, m), ...more }) };
}

function filled(t: Tables, frame: string, gaps: Gaps): string {
  return fill(t.says[frame]!, gaps);
}

/** Asks for the unit, with the same number in each unit in which the measure takes it. */
function ask(t: Tables, text: string, m: Measure): Refusal {
  let out: Refusal | undefined;
  const choices: string[] = [];
  for (const code of m.accept) {
    const choice = behind(t, unitOf(t, code), tidy(t, text), true);
    const v = typed(t, choice, m);
    if (!refused(v)) choices.push(choice);
    else if (!out) out = v;
  }
  if (!choices.length) return out as Refusal;
  return { ...refuse(t, m, "bare", unitOf(t, m.unit), { choices: either(t, choices) }), choices };
}

function tidy(t: Tables, text: string): string {
  return fold(t, text)!.join("").split(" ").filter((word) => word).join(" ");
}

function withUnit(u: Unit, number: string): string {
  if (u.code === RATIO) return "1:" + number;
  if (u.one && (number === "1" || number === "-1")) return `${number} ${u.one}`;
  return u.mark ? `${number} ${u.mark}` : number;
}

function list(t: Tables, m: Measure): string {
  return either(t, m.accept.map((code) => t.names[code]!));
}

function either(t: Tables, words: string[]): string {
  const before = words.slice(0, -1);
  const last = words[before.length]!;
  return before.length ? filled(t, before[1] ? "or-last" : "or-two", { before: inRow(t, before), last }) : last;
}

function inRow(t: Tables, all: string[]): string {
  return all.reduce((before, next) => filled(t, "next", { before, next }));
}

function hint(t: Tables, m: Measure, asked: Unit): Gaps {
  const mine = unitOf(t, m.unit);
  const into = (c: number, k: Kind) => across(c, mine.kind, k);
  let u = asked;
  if (u.code === RATIO) {
    const gaps = hintRatio(t, u, into(m.from, "slope"), into(m.to, "slope"));
    if (gaps) return gaps;
    u = mine;
  }
  const step = stepOf(t, u, m);
  const lo = rounded(t, u, into(m.from, u.kind), step, UP);
  const hi = rounded(t, u, into(m.to, u.kind), step, DOWN);
  if (lo > hi) return hint(t, m, mine);
  let like = rounded(t, u, into(m.from + (m.to - m.from) / 3, u.kind), easy(hi - lo, step), NEAR);
  if (like < lo || like > hi) like = hi;
  const from = u.bare ? write(t, u, lo, step) : numeral(t, bareNumber(u, lo, step));
  return { what: t.says["a-number"]!, from, to: write(t, u, hi, step), like: write(t, u, like, step) };
}

function hintRatio(t: Tables, u: Unit, from: number, to: number): Gaps | undefined {
  if (!sayable(to) || (from > 0 && !sayable(from))) return undefined;
  const steepest = rounded(t, u, to, u.step, DOWN);
  let flattest = Infinity;
  let flat = t.says.flat!;
  if (from > 0) {
    flattest = rounded(t, u, from, u.step, UP);
    flat = write(t, u, flattest, u.step);
  }
  if (steepest > flattest) return undefined;
  const like = Math.max(Math.min(nearest(1 / (from + (to - from) / 3)), flattest), steepest);
  return { what: t.says["a-slope"]!, from: flat, to: write(t, u, steepest, u.step), like: write(t, u, like, u.step) };
}

function easy(wide: number, step: number): number {
  let out = step;
  for (const s of [0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]) {
    if (s <= wide / 10 && s >= step && even(s / step)) out = s;
  }
  return out;
}

// Showing

/** Words a value: "38 mm (1 1/2 in)". What nobody wrote is shown in a measure's own unit to its step. */
export function show(t: Tables, v: Value, m?: Measure): string {
  return framed(t, worded(t, v, m), "also", !fits(v.kind, "slope"));
}

/** The same without what the amount also is. */
export function alone(t: Tables, v: Value, m?: Measure): string {
  return worded(t, v, m).first;
}

/** Reads an amount back to whoever wrote it: "3.5 in is 88.9 mm". */
export function back(t: Tables, v: Value, m?: Measure): string {
  const w = worded(t, v, m);
  return framed(t, w, "is", w.exact);
}

function framed(t: Tables, w: Worded, frame: string, just: boolean): string {
  if (!w.others.length) return w.first;
  return filled(t, frame + (w.flat ? "-flat" : just ? "" : "-about"), { amount: w.first, others: inRow(t, w.others) });
}

interface Worded {
  first: string;
  others: string[];
  exact: boolean;
  flat?: boolean;
}

function worded(t: Tables, v: Value, m?: Measure): Worded {
  if (!(Math.abs(v.value) <= 1e9)) return { first: "", others: [], exact: true };
  if (fits(v.kind, "slope")) return slope(t, v, m);
  const u = unitOf(t, v.unit);
  const out: Worded = { first: first(t, v, u, m), others: [], exact: true };
  const code = u.big && Math.abs(v.value) >= 1000 ? u.big : u.pair;
  if (code) add(t, out, exact(v), unitOf(t, code), pairStep(t, v, unitOf(t, code), m));
  return out;
}

function first(t: Tables, v: Value, u: Unit, m?: Measure): string {
  if (v.said) return said(t, v.said, u);
  const step = stepOf(t, u, m);
  return write(t, u, rounded(t, u, across(exact(v), v.kind, u.kind), step, NEAR), step);
}

function add(t: Tables, w: Worded, c: number, u: Unit, step: number): void {
  const x = rounded(t, u, c, step, NEAR);
  if (x === 0 && c !== 0 && u.kind !== "angle" && u.kind !== "slope") return;
  w.others.push(write(t, u, x, step));
  w.exact = w.exact && Math.abs(fromCanonical(counter(t, u), c) - x) < TINY;
}

function pairStep(t: Tables, v: Value, pair: Unit, m?: Measure): number {
  const own = !v.said && m !== undefined && takesStep(t, pair, m);
  if (pair.round && !(own && m && pair.code === m.unit)) return pair.round;
  return own ? stepOf(t, pair, m) : pair.step;
}

function slope(t: Tables, v: Value, m?: Measure): Worded {
  const rise = across(exact(v), v.kind, "slope");
  let u = unitOf(t, v.unit);
  if (!v.said && Math.abs(rise) === Infinity) u = unitOf(t, "deg");
  else if (!v.said && u.code === RATIO && !sayable(rise)) u = unitOf(t, "%");
  const out: Worded = { first: first(t, v, u, m), others: [], exact: true, flat: v.kind === "slope" && exact(v) === 0 };
  for (const code of ["%", "deg", RATIO]) {
    if (code === u.code || (v.kind === "angle" && code !== "deg") || (code === RATIO && !sayable(rise))) continue;
    const o = unitOf(t, code);
    add(t, out, across(exact(v), v.kind, o.kind), o, pairStep(t, v, o, m));
  }
  return out;
}

function sayable(slope: number): boolean {
  return slope <= 1 + TINY && slope >= 0.001 - TINY;
}

function stepOf(t: Tables, u: Unit, m?: Measure): number {
  return m && takesStep(t, u, m) ? clean(fromCanonical(counter(t, u), m.step)) : u.step;
}

function takesStep(t: Tables, u: Unit, m: Measure): boolean {
  return u.code === m.unit || counter(t, u).code === m.unit;
}

function counter(t: Tables, u: Unit): Unit {
  return u.bare ? unitOf(t, u.sub!) : u;
}

const DOWN = -1;
const NEAR = 0;
const UP = 1;

function rounded(t: Tables, u: Unit, c: number, step: number, way: number): number {
  const x = fromCanonical(counter(t, u), c);
  const to = u.code === RATIO ? -way : way;
  let k = nearest(x / step);
  if (to === DOWN) k = Math.floor(x / step + TINY);
  if (to === UP) k = Math.ceil(x / step - TINY);
  return clean(k * step) + 0;
}

function write(t: Tables, u: Unit, x: number, step: number): string {
  if (u.code === RATIO) return behind(t, u, format(x, u.step));
  return u.bare ? twofold(t, u, x, step) : behind(t, u, bareNumber(u, x, step));
}

function twofold(t: Tables, u: Unit, x: number, step: number): string {
  const per = u.per!;
  const whole = Math.floor(Math.abs(x) / per + TINY);
  const rest = clean(Math.abs(x) - whole * per);
  const out: string[] = [];
  if (whole > 0) out.push(behind(t, u, format(whole, 1)));
  if (rest > 0 || whole === 0) out.push(write(t, unitOf(t, u.sub!), rest, step));
  return signed(x, out.join(" "));
}

function bareNumber(u: Unit, x: number, step: number): string {
  const d = u.parts ? partsOf(step) : 0;
  return d > 0 ? mixed(x, d) : format(x, step);
}

function partsOf(step: number): number {
  for (let d = 1; d <= 64; d++) if (even(step * d)) return d;
  return 0;
}

function mixed(x: number, d: number): string {
  const n = nearest(Math.abs(x) * d);
  const whole = Math.floor(n / d);
  const above = n % d;
  const out: string[] = [];
  if (whole > 0 || above === 0) out.push(format(whole, 1));
  if (above > 0) {
    const by = common(above, d);
    out.push(format(above / by, 1) + "/" + format(d / by, 1));
  }
  return signed(x, out.join(" "));
}

function common(a: number, b: number): number {
  return b === 0 ? a : common(b, a % b);
}

function signed(x: number, text: string): string {
  return x < 0 ? "-" + text : text;
}

/** Words a number without a unit, to the nearest multiple of step. */
export function plain(t: Tables, x: number, step: number): string {
  return numeral(t, format(clean(nearest(x / step) * step) + 0, step));
}

/** A number with the digits and the sign before its parts that the language has. */
function numeral(t: Tables, number: string): string {
  return OTHER_LANGUAGE ? ownNumeral(t, number) : number;
}

function ownNumeral(t: Tables, number: string): string {
  const { point, numerals } = t;
  const out = point ? number.split(".").join(point) : number;
  return numerals ? out.replace(/[0-9]/g, (d) => Array.from(numerals)[Number(d)]!) : out;
}

/** An amount in u in the words of the language; as it stands where a reader wrote the number. */
function behind(t: Tables, u: Unit, number: string, written?: boolean): string {
  return OTHER_LANGUAGE ? sign(t, u, number, written ? number : ownNumeral(t, number)) : withUnit(u, number);
}

function sign(t: Tables, u: Unit, number: string, shown: string): string {
  const forms = t.signs && t.signs[u.code];
  return forms ? (forms[formOf(t, number)] || forms.other)!.split("{count}").join(shown) : u.code === RATIO ? `${ownNumeral(t, "1")}:${shown}` : withUnit(u, shown);
}

/** The plural form that goes with a number as it is written: "1 degree", and "1.0 degrees". */
function formOf(t: Tables, number: string): string {
  const cut = /^-?([0-9]{1,9})(?:\.([0-9]{1,9}))?$/.exec(number);
  if (!cut) return "other";
  if (typeof Intl === "object" && Intl.PluralRules) {
    return new Intl.PluralRules(t.lang, { minimumFractionDigits: (cut[2] || "").length }).select(Math.abs(Number(number)));
  }
  return cut[1] === "1" && !cut[2] ? "one" : "other";
}

/** Puts into the words of the language what is kept as "5 ft 10 in". */
function said(t: Tables, kept: string, u: Unit): string {
  return OTHER_LANGUAGE ? ownSaid(t, kept, u) : kept;
}

function ownSaid(t: Tables, kept: string, u: Unit): string {
  const minus = kept[0] === "-" ? "-" : "";
  const text = kept.slice(minus.length);
  if (u.code === RATIO) return minus + behind(t, u, text.replace(/^1:/, ""));
  const [major, minor] = text.split(` ${u.mark} `);
  if (u.sub && minor !== undefined) {
    const sub = unitOf(t, u.sub);
    return `${minus}${behind(t, u, major!)} ${behind(t, sub, without(sub, minor))}`;
  }
  return behind(t, u, minus + without(u, text));
}

function without(u: Unit, text: string): string {
  return [u.one, u.mark].reduce((out: string, mark) => (mark && out.slice(-mark.length - 1) === " " + mark ? out.slice(0, -mark.length - 1) : out), text);
}

function format(x: number, step: number): string {
  let places = 0;
  for (let scale = 1; places < 9 && Math.abs(step * scale - nearest(step * scale)) > TINY * scale; scale *= 10) places++;
  const text = x.toFixed(places);
  return places > 0 ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}
