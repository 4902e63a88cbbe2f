// Reads and shows lengths, masses, angles, slopes and counts as builder/quantity
// does: same table, same rules, same words. That package is the reference and
// explains why; a Go test runs both over the same answers and compares. No page,
// no locale, no clock here, so that test can run this file alone.

export type Kind = "length" | "mass" | "angle" | "slope" | "count";

/** A row of the table. See Unit in builder/quantity/units.go. */
export interface Unit {
  code: string;
  kind: Kind;
  system?: string;
  num: number;
  den: number;
  spell?: string[];
  name?: string;
  mark?: string;
  one?: string;
  step: number;
  round?: number;
  parts?: boolean;
  pair?: string;
  big?: string;
  sub?: string;
  per?: number;
  bare?: boolean;
}

export interface Tables {
  units: Unit[];
  kinds: { [kind: string]: string };
  says: { [code: string]: string };
  fold: { [char: string]: string };
  fractions: { [char: string]: [number, number] };
  longest: number;
  digits: number;
}

/** Which amounts a question takes. Limits and step in the canonical unit of its kind. */
export interface Measure {
  unit: string;
  accept: string[];
  from: number;
  to: number;
  step: number;
}

export interface Value {
  kind: Kind;
  value: number; // mm, kg, degrees, rise over run, or a count
  unit: string; // the unit shown first
  rest?: number; // what rounding took away; for showing only
}

/** Why an answer was not taken: a code for programs, a text for the reader. */
export interface Refusal {
  code: string;
  text: string;
}

type Gaps = { [name: string]: string };

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
  return t.units.find((u) => u.spell !== undefined && u.spell.indexOf(word) >= 0);
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
  whole: boolean;
  near: boolean; // touches what stands before it
}

interface Cut {
  token?: Token;
  end: number;
  code?: string;
}

const nothing: Token = { kind: "", word: "", num: 0, whole: false, near: false };

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

/** Characters in their usual form, ASCII letters small; undefined where there are too many. */
function fold(t: Tables, text: string): string[] | undefined {
  const out: string[] = [];
  let count = 0;
  for (const c of text) {
    if (++count > t.longest) return undefined;
    const to = own(t.fold, c);
    if (to === undefined) out.push(c >= "A" && c <= "Z" ? c.toLowerCase() : c);
    else if (to !== "") out.push(to);
  }
  return out;
}

function next(t: Tables, s: string[], i: number): Cut {
  const c = s[i]!;
  if (c === " ") return { end: i + 1 };
  if (digit(s, i) || (c === "." && digit(s, i + 1))) return number(t, s, i);
  if (c === "." && (letter(s, i - 1) || digit(s, i - 1))) return { end: i + 1 };
  if (c === "'" && s[i + 1] === "'") return { token: { ...nothing, kind: "w", word: '"' }, end: i + 2 };
  const f = own(t.fractions, c);
  if (f) return { token: { ...nothing, kind: "f", num: f[0] / f[1] }, end: i + 1 };
  let end = i + 1;
  while (letter(s, i) && letter(s, end)) end++;
  return { token: { ...nothing, kind: "w", word: s.slice(i, end).join("") }, end };
}

function digit(s: string[], i: number): boolean {
  const c = s[i];
  return c !== undefined && c.length === 1 && c >= "0" && c <= "9";
}

function letter(s: string[], i: number): boolean {
  const c = s[i];
  return c !== undefined && c.length === 1 && c >= "a" && c <= "z";
}

function number(t: Tables, s: string[], i: number): Cut {
  let end = i;
  while (digit(s, end) || ((s[end] === "." || s[end] === ",") && digit(s, end + 1))) end++;
  const raw = s.slice(i, end).join("");
  if (raw.length > t.digits) return { end, code: "digits" };
  const whole = raw.indexOf(".") < 0 && raw.indexOf(",") < 0;
  if (whole && s[end] === "/" && digit(s, end + 1)) return fraction(s, raw, end + 1);
  const d = decimal(raw);
  if (d.code) return { end, code: d.code };
  return { token: { ...nothing, kind: "n", num: Number(d.raw), whole }, end };
}

function decimal(raw: string): { raw: string; code?: string } {
  const at = raw.indexOf(",");
  if (at < 0) return raw.split(".").length > 2 ? { raw, code: "number" } : { raw };
  const before = raw.slice(0, at);
  const after = raw.slice(at + 1);
  if (/[.,]/.test(after) || before.indexOf(".") >= 0) return { raw, code: "comma" };
  if (after.length === 3 && before.length <= 3 && before[0] !== "0") return { raw, code: "comma" };
  return { raw: before + "." + after };
}

function fraction(s: string[], above: string, i: number): Cut {
  let end = i;
  while (digit(s, end)) end++;
  const n = Number(above);
  const d = Number(s.slice(i, end).join(""));
  if (end - i > 4 || n === 0 || n >= d) return { end, code: "fraction" };
  return { token: { ...nothing, kind: "f", num: n / d }, end };
}

// Reading: from tokens to an amount

interface Part {
  num: number;
  whole: boolean;
  below: boolean; // only a fraction
  unit: Unit | undefined;
}

class Parser {
  at = 0;
  minus = false;
  num = 0; // canonical, of unit's kind
  unit: Unit;
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
    const out: Part = { num: t.num, whole: t.whole, below: t.kind === "f", unit: undefined };
    const w = this.peek(0);
    const n = (w.word === "-" && w.near && this.peek(1).near) || w.word === "and" ? 1 : 0;
    const f = this.peek(n);
    if (f.kind === "f" && t.kind === "n") {
      if (!t.whole) this.fail("fraction");
      this.at += n + 1;
      out.num += f.num;
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
    this.allowed();
    if (!one.unit && one.below && fits("slope", this.unit.kind)) this.fail("ratio");
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
    if (minor.num >= per) this.fail("parts", { few: format(per, 1), sub: sub.name!, major: u.name! });
    this.num = canonical(sub, major.num * per + minor.num);
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
  if (p.code !== "") return refuse(t, m, p.code, u, p.gaps);
  const c = across(p.num, p.unit.kind, u.kind);
  return { kind: u.kind, value: (p.minus ? -c : c) + 0, unit: p.unit.code };
}

/** Reads what a person typed, checks the limits and rounds to the measure's step. */
export function read(t: Tables, text: string, m: Measure): Value | Refusal {
  const v = parse(t, text, m);
  if (refused(v)) return v;
  const u = unitOf(t, v.unit);
  const k = nearest(v.value / m.step);
  if (v.value < 0 && m.from >= 0) return refuse(t, m, "negative", u);
  if (k < nearest(m.from / m.step) || k > nearest(m.to / m.step)) return refuse(t, m, "range", u);
  if (v.kind === "count" && even(m.step) && !even(v.value)) return refuse(t, m, "whole", u);
  const value = clean(k * m.step);
  return { kind: v.kind, value, unit: v.unit, rest: v.value - value };
}

// Refusing

function refuse(t: Tables, m: Measure, code: string, u: Unit, more: Gaps = {}): Refusal {
  const gaps: Gaps = { ...hint(t, m, u), units: list(t, m), ...more };
  const text = t.says[code]!.replace(/\{([a-z]+)\}/g, (_, name: string) => gaps[name]!);
  return { code, text };
}

function list(t: Tables, m: Measure): string {
  const names = m.accept.map((code) => unitOf(t, code).name!);
  const last = names.pop()!;
  return names.length ? names.join(", ") + " or " + last : last;
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
  const from = u.bare ? write(t, u, lo, step) : bareNumber(u, lo, step);
  return { what: "a number", from, to: write(t, u, hi, step), like: write(t, u, like, step) };
}

function hintRatio(t: Tables, u: Unit, from: number, to: number): Gaps | undefined {
  if (!sayable(to) || (from > 0 && !sayable(from))) return undefined;
  const steepest = rounded(t, u, to, 1, DOWN);
  let flattest = Infinity;
  let flat = "flat";
  if (from > 0) {
    flattest = rounded(t, u, from, 1, UP);
    flat = write(t, u, flattest, 1);
  }
  if (steepest > flattest) return undefined;
  const like = Math.max(Math.min(nearest(1 / (from + (to - from) / 3)), flattest), steepest);
  return { what: "a slope", from: flat, to: write(t, u, steepest, 1), like: write(t, u, like, 1) };
}

function easy(wide: number, step: number): number {
  let out = step;
  for (const s of [0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]) {
    if (s <= wide / 10 && s >= step && even(s / step)) out = s;
  }
  return out;
}

// Showing

/** Words a value: "38 mm (1 1/2 in)". With a measure, its own unit is shown to its step. */
export function show(t: Tables, v: Value, m?: Measure): string {
  const u = unitOf(t, v.unit);
  if (!(Math.abs(v.value) <= 1e9)) return "";
  if (fits(v.kind, "slope")) return showSlope(t, v, u, m);
  const first = words(t, u, v.value + (v.rest || 0), m);
  const code = u.big && Math.abs(v.value) >= 1000 ? u.big : u.pair;
  if (!code) return first;
  const pair = unitOf(t, code);
  const mine = m !== undefined && m.unit === code;
  const step = pair.round && !mine ? pair.round : stepOf(t, pair, m);
  const x = rounded(t, pair, v.value, step, NEAR);
  if (x === 0 && v.value !== 0) return first;
  return `${first} (${write(t, pair, x, step)})`;
}

function showSlope(t: Tables, v: Value, asked: Unit, m?: Measure): string {
  const said = v.value + (v.rest || 0);
  const slope = across(said, v.kind, "slope");
  let u = asked;
  if (Math.abs(slope) === Infinity) u = unitOf(t, "deg");
  else if (u.code === RATIO && !sayable(slope)) u = unitOf(t, "%");
  const others: string[] = [];
  for (const code of ["%", "deg", RATIO]) {
    if (code === u.code || (v.kind === "angle" && code !== "deg") || (code === RATIO && !sayable(slope))) continue;
    const o = unitOf(t, code);
    others.push(words(t, o, across(v.value, v.kind, o.kind), m));
  }
  const first = words(t, u, across(said, v.kind, u.kind), m);
  if (v.kind === "slope" && v.value === 0) return `${first} (flat)`;
  return others.length ? `${first} (about ${others.join(", ")})` : first;
}

function sayable(slope: number): boolean {
  return slope <= 1 + TINY && slope >= 0.001 - TINY;
}

function words(t: Tables, u: Unit, c: number, m?: Measure): string {
  const step = stepOf(t, u, m);
  return write(t, u, rounded(t, u, c, step, NEAR), step);
}

function stepOf(t: Tables, u: Unit, m?: Measure): number {
  const by = counter(t, u);
  return m && (u.code === m.unit || by.code === m.unit) ? clean(fromCanonical(by, m.step)) : u.step;
}

function counter(t: Tables, u: Unit): Unit {
  return u.bare ? unitOf(t, u.sub!) : u;
}

const DOWN = -1;
const NEAR = 0;
const UP = 1;

function rounded(t: Tables, u: Unit, c: number, step: number, way: number): number {
  const x = fromCanonical(counter(t, u), c);
  const ratio = u.code === RATIO;
  const unit = ratio && x < 10 ? 0.5 : step;
  const to = ratio ? -way : way;
  let k = nearest(x / unit);
  if (to === DOWN) k = Math.floor(x / unit + TINY);
  if (to === UP) k = Math.ceil(x / unit - TINY);
  return clean(k * unit) + 0;
}

function write(t: Tables, u: Unit, x: number, step: number): string {
  if (u.code === RATIO) return "1 in " + format(x, 0.5);
  if (u.bare) return twofold(t, u, x, step);
  const n = bareNumber(u, x, step);
  if (u.one && (n === "1" || n === "-1")) return `${n} ${u.one}`;
  return u.mark ? `${n} ${u.mark}` : n;
}

function twofold(t: Tables, u: Unit, x: number, step: number): string {
  const per = u.per!;
  const whole = Math.floor(Math.abs(x) / per + TINY);
  const rest = clean(Math.abs(x) - whole * per);
  const out: string[] = [];
  if (whole > 0) out.push(`${format(whole, 1)} ${u.mark}`);
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
export function plain(x: number, step: number): string {
  return format(clean(nearest(x / step) * step) + 0, step);
}

function format(x: number, step: number): string {
  let places = 0;
  for (let scale = 1; places < 9 && Math.abs(step * scale - nearest(step * scale)) > TINY * scale; scale *= 10) places++;
  const text = x.toFixed(places);
  return places > 0 ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}
