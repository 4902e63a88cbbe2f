// The evaluator of conditions and worked-out values: the browser's copy of
// builder/formula, which documents the language and what an unknown answer
// does. It reads the form that Encode there writes. null is unknown.

import { Coded } from "../types/formula";
import { functions } from "./mechanics";
import { entry } from "./own";

export type { Coded };
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

type Worked = (values: Values) => Worth;

/** Formulas made ready, each at its first use: a table's formulas never change. */
const worked = new Map<Coded, Worked>();

export function evaluate(e: Coded, values: Values): Worth {
  let by = worked.get(e);
  if (!by) worked.set(e, (by = work(e)));
  return by(values);
}

function work(e: Coded): Worked {
  if (typeof e !== "object") return () => e as number | boolean;
  const [op, name, text] = e as [string, string, string];
  if (op === "v" || op === "is" || op === "has") {
    return (values) => {
      const v = entry(values, name);
      if (Array.isArray(v)) return v.indexOf(text) >= 0;
      return v === undefined ? null : v;
    };
  }
  const called = op === "f";
  const parts = e.slice(called ? 2 : 1).map((part) => work(part as Coded)) as [Worked, Worked];
  const [a, b] = parts;
  if (op === "!") {
    return (values) => {
      const x = a(values);
      return x === null ? null : !x;
    };
  }
  if (op === "&&" || op === "||") return (values) => logic(op === "||", a(values), b(values));
  const f = called ? entry(functions, name) || entry(common, name) : operators[op];
  return (values) => {
    const args = parts.map((part) => part(values)) as [number, number];
    const out = f && args.indexOf(null as never) < 0 ? f.apply(null, args) : NaN;
    return isFinite(out as number) ? out : null;
  };
}

/** Functions of amounts of any kind. */
const common: { [name: string]: (...amounts: number[]) => number } = { min: Math.min, max: Math.max, abs: Math.abs };

/** One operand of the decisive truth decides, even beside an unknown. */
function logic(decisive: boolean, a: Worth, b: Worth): Worth {
  if (a === decisive || b === decisive) return decisive;
  return a === null || b === null ? null : !decisive;
}
