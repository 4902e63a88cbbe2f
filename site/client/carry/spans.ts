// A stretch of amounts in words. An amount is kept in steps, and a step says nothing
// to a reader: what begins one step above 8.5 % is "more than 8.5 %". No page here, so
// that a Go test can run it.

import { Kind, Tables, Value, alone, show } from "../sums/quantity";
import { TableMeasure } from "../walk/walker";
import * as words from "../words/words";

/** Both ends are in the range, in canonical units. */
export interface Range {
  from: number;
  to: number;
}

export function spanned(units: Tables, m: TableMeasure, range: Range): string {
  const unit = units.units.find((u) => u.code === m.unit) as { kind: Kind };
  const at = (value: number): Value => ({ kind: unit.kind, value: Math.round(value * 1e9) / 1e9, unit: m.unit });
  const say = (value: number): string => show(units, at(value), m);
  const long = (value: number): number => digits(units, alone(units, at(value), m));
  const end = (edge: number, beyond: number): words.End => {
    const rounder = long(beyond) < long(edge);
    return { open: rounder, amount: say(rounder ? beyond : edge) };
  };
  const from = end(range.from, range.from - m.step);
  const to = end(range.to, range.to + m.step);
  const lowest = range.from <= m.from;
  const highest = range.to >= m.to;
  if (lowest && highest) return words.ifAny;
  if (range.from === range.to && (lowest || highest || !(from.open && to.open))) return words.ifIs(say(range.from));
  if (lowest) return to.open ? words.ifUnder(to.amount) : words.ifLess(to.amount);
  if (highest) return from.open ? words.ifOver(from.amount) : words.ifMore(from.amount);
  return words.ifWithin(from, to);
}

/** How many digits an amount needs, without the zeros around them: 50 is rounder than 51, and 8.5 than 8.55. */
function digits(units: Tables, said: string): number {
  const ten = Array.from(units.numerals || "0123456789");
  const number = Array.from(said, (c) => ten.indexOf(c)).filter((d) => d >= 0);
  const first = number.findIndex((d) => d > 0);
  return first < 0 ? 0 : number.join("").replace(/0+$/, "").length - first;
}
