// What an amount changes in a drawing: the same as builder/drawing/moves.go, letter for letter. A part says by data-is how
// it moves, and gets the attribute for it.

import { digits } from "../words/words";

const MOVE = / data-is="(\w+)(?:\.(\d))? ?([^"]*)"/g;
const SAID = /(data-is="says(?:\.(\d))?"[^>]*>)[^<]*</g;
const NUMBER = /-?\d+(?:\.\d+)?/g;

/** The drawing at its amounts, as text: a slope is a ratio, a heel in millimetres, a load in kilograms. */
export function setTo(body: string, amounts: number[]): string {
  const of = (which: string | undefined): number => amounts[Number(which || 0)] as number;
  return body
    .replace(SAID, (_, before: string, which?: string) => `${before}${digits(rounded(degrees(of(which)), 1))}°<`)
    .replace(MOVE, (found: string, word: string, which: string | undefined, args: string) => found + moved(word, args, of(which)));
}

function moved(word: string, args: string, amount: number): string {
  if (word === "mix") return ` d="${mixed(args, amount)}"`;
  const k = args.split(" ").map(Number);
  const [a = 0, b = 0, c = 0] = k;
  if (word === "turn") return ` transform="rotate(${fine(a * degrees(amount))} ${rounded(b, 10)} ${rounded(c, 10)})"`;
  if (word === "drop") return ` transform="translate(0 ${fine(a * amount)})"`;
  if (word === "grow") {
    const s = Math.cbrt(amount / 10);
    return ` transform="translate(0 ${fine(a * (1 - s))}) scale(${fine(s)})"`;
  }
  if (word === "arc") {
    const turn = a * Math.atan(amount);
    const r = rounded(b, 10);
    return ` d="M0 ${rounded(-b, 10)}A${r} ${r} 0 0 ${turn < 0 ? 0 : 1} ${fine(b * Math.sin(turn))} ${fine(-b * Math.cos(turn))}"`;
  }
  return "";
}

/** The path between two that differ in their numbers alone. */
function mixed(args: string, amount: number): string {
  const [ends, from, to] = args.split("|") as [string, string, string];
  const [a, b] = ends.split(" ").map(Number) as [number, number];
  const t = (amount - a) / (b - a);
  const last = to.match(NUMBER) as string[];
  let i = 0;
  return from.trim().replace(NUMBER, (x) => rounded(Number(x) + (Number(last[i++]) - Number(x)) * t, 10));
}

function degrees(ratio: number): number {
  return (Math.atan(ratio) * 180) / Math.PI;
}

function fine(v: number): string {
  return rounded(v, 1000);
}

/** To the nearest 1/parts, halves away from zero, and never "-0". */
function rounded(v: number, parts: number): string {
  const n = (Math.sign(v) * Math.round(Math.abs(v) * parts)) / parts;
  return String(n || 0);
}
