// What a figure shows at its settings: the browser's copy of Settle in
// builder/figure, which is the reference. No page here, so that a Go test can
// run both over the same settings.

import { Coded as Figure, CodedCase as Case, CodedHandle as Handle, CodedInput as Input, Spot } from "../types/figure";
import { Coded, Values, Worth, evaluate } from "../sums/formula";
import { entry } from "../sums/own";
import { Kind, Measure, Tables, Value, alone, exact, plain, show } from "../sums/quantity";

export type { Figure, Handle, Input, Spot };

export interface Settings {
  amounts: { [id: string]: Value };
  chosen: { [id: string]: string };
  us: boolean;
}

export interface Shown {
  texts: { [id: string]: string };
  attrs: { [partAndAttr: string]: string };
  open: { [input: string]: boolean };
}

/** The same with texts that are made when they are asked for. */
export interface Look {
  attrs: { [partAndAttr: string]: string };
  open: { [input: string]: boolean };
  text(id: string): string;
  /** An input's or a value's number, in canonical units. */
  number(id: string): number | undefined;
}

export function settle(f: Figure, s: Settings, units: Tables, kept?: Kept): Shown {
  const seen = look(f, s, units, kept);
  const texts: Shown["texts"] = {};
  for (const i of f.inputs) if (i.measure) texts[i.id] = seen.text(i.id);
  for (const t of f.texts) texts[t.id] = seen.text(t.id);
  return { texts, attrs: seen.attrs, open: seen.open };
}

/** What formulas came to, and the values they were worked out from. */
export type Kept = Map<Coded, { from: Values; worth: Worth }>;

export function nothingKept(): Kept {
  return new Map();
}

/** The names in each formula; a table's formulas never change. */
const named = new Map<Coded, string[]>();

function names(e: Coded): string[] {
  const known = named.get(e);
  if (known) return known;
  const out: string[] = [];
  const walk = (part: Coded): void => {
    if (typeof part !== "object") return;
    if (typeof part[1] === "string" && part[0] !== "f") out.push(part[1]);
    else part.forEach((inner) => walk(inner));
  };
  walk(e);
  named.set(e, out);
  return out;
}

function same(a: Values[string] | undefined, b: Values[string] | undefined): boolean {
  return a === b || (Array.isArray(a) && Array.isArray(b) && a[0] === b[0]);
}

/** With kept, a formula is worked out anew only when a value in it has changed. */
export function look(f: Figure, s: Settings, units: Tables, kept?: Kept): Look {
  const values: Values = {};
  function worth(e: Coded): Worth {
    const known = kept && kept.get(e);
    if (known && names(e).every((name) => same(known.from[name], values[name]))) return known.worth;
    const now = evaluate(e, values);
    if (kept) kept.set(e, { from: values, worth: now });
    return now;
  }
  const counted: { [id: string]: Figure["values"][number] } = {};
  const holds = (e: Coded | undefined): boolean => e === undefined || worth(e) === true;
  for (const id in s.amounts) values[id] = exact(s.amounts[id] as Value);
  for (const id in s.chosen) values[id] = [s.chosen[id] as string];
  for (const v of f.values) {
    if (entry(counted, v.id) || !holds(v.if)) continue;
    counted[v.id] = v;
    values[v.id] = worth(v.is);
  }

  const words: { [id: string]: string } = {};
  function word(id: string): string {
    const known = entry(words, id);
    return known === undefined ? (words[id] = worded(id)) : known;
  }

  function worded(id: string): string {
    const input = f.inputs.find((i) => i.id === id);
    const said = entry(s.amounts, id);
    if (input && input.choices) return entry(input.choices, s.chosen[id] as string) || "";
    if (input && said) return show(units, said, input.measure);
    const v = entry(counted, id);
    const x = entry(values, id);
    if (!v || typeof x !== "number") return "";
    const u = units.units.find((unit) => unit.code === v.unit);
    if (!u) return plain(units, x, v.step as number);
    const m: Measure = { unit: u.code, accept: [], from: 0, to: 0, step: v.step as number };
    const code = s.us && u.system === "metric" && u.pair ? u.pair : u.code;
    return (v.alone ? alone : show)(units, { kind: u.kind as Kind, value: x, unit: code }, m);
  }

  function say(cases: Case[]): string {
    const found = cases.find((c) => holds(c.if));
    if (!found) return "";
    let known = true;
    const out = found.text.replace(/\{([a-z0-9-]+)\}/g, (_, id: string) => {
      const w = word(id);
      known = known && w !== "";
      return w;
    });
    return known ? out : "";
  }

  const out: Look = {
    attrs: {},
    open: {},
    text(id) {
      const text = f.texts.find((t) => t.id === id);
      const input = f.inputs.find((i) => i.id === id);
      return text ? say(text.cases) : input && input.say ? say(input.say) : word(id);
    },
    number(id) {
      const x = entry(values, id);
      return typeof x === "number" ? x : undefined;
    },
  };
  for (const i of f.inputs) out.open[i.id] = holds(i.if);
  for (const m of f.moves) {
    const text = attr(m.attr, m.is, worth);
    if (text !== undefined) out.attrs[m.part + " " + m.attr] = text;
  }
  return out;
}

/** An attribute's text; nothing where a part of it is unknown. */
function attr(name: string, is: Figure["moves"][number]["is"], worth: (e: Coded) => Worth): string | undefined {
  if (name === "display") return worth(is[0] as unknown as Coded) === true ? "inline" : "none";
  let out = "";
  for (const p of is) {
    if (typeof p === "string") {
      out += p;
      continue;
    }
    const x = worth(p[1]);
    if (x === null) return undefined;
    out += String(Math.round((x as number) * 100) / 100 + 0);
  }
  return out;
}
