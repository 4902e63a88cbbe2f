// The evaluator of conditions and worked-out values: the browser's copy of
// builder/formula, which documents the language and what an unknown answer
// does. It reads the form that Encode there writes. null is unknown.

import { functions } from "./mechanics";
import { entry } from "./own";

export type Coded = number | boolean | [string, ...Coded[]] | string;
export type Worth = number | boolean | null;

/** What a name stands for: an amount in canonical units, a truth, answers, or unknown. */
export type Values = { [name: string]: number | boolean | string[] | null };

/** What works on amounts that are known. */
const operators: { [op: string]: (a: number, b: number) => number | boolean } = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  "==": (a, b) => a === b,
  "!=": (a, b) => a !== b,
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
  neg: (a) => -a,
};

export function evaluate(e: Coded, values: Values): Worth {
  if (typeof e !== "object") return e as number | boolean;
  const [op, name, text] = e as [string, string, string];
  const value = (part: Coded): Worth => evaluate(part, values);
  if (op === "!") {
    const a = value(name);
    return a === null ? null : !a;
  }
  if (op === "&&" || op === "||") return logic(op === "||", value(name), value(text));
  if (op === "v" || op === "is" || op === "has") {
    const v = entry(values, name);
    if (Array.isArray(v)) return v.indexOf(text) >= 0;
    return v === undefined ? null : v;
  }
  const called = op === "f";
  const args = e.slice(called ? 2 : 1).map((part) => value(part as Coded)) as number[];
  const f = called ? entry(functions, name) || entry(common, name) : operators[op];
  const out = f && args.indexOf(null as never) < 0 ? f.apply(null, args as [number, number]) : NaN;
  return isFinite(out as number) ? out : null;
}

/** Functions of amounts of any kind. */
const common: { [name: string]: (...amounts: number[]) => number } = { min: Math.min, max: Math.max, abs: Math.abs };

/** One operand of the decisive truth decides, even beside an unknown. */
function logic(decisive: boolean, a: Worth, b: Worth): Worth {
  if (a === decisive || b === decisive) return decisive;
  return a === null || b === null ? null : !decisive;
}
