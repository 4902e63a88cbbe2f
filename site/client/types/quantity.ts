// What builder/quantity gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

export type Kind = "angle" | "count" | "length" | "mass" | "slope";

export interface Measure {
  unit: string;
  accept: string[];
  from: number;
  to: number;
  step: number;
}

export interface Own {
  spell?: { [key: string]: string };
  letters?: string;
  fold?: { [key: string]: string };
  comma?: boolean;
}

export interface Tables {
  lang: string;
  units: Unit[];
  kinds: { [key: string]: string };
  names: { [key: string]: string };
  signs?: { [key: string]: { [key: string]: string } };
  says: { [key: string]: string };
  point?: string;
  numerals?: string;
  own?: Own;
  fold: { [key: string]: string };
  fractions: { [key: string]: [number, number] };
  longest: number;
  digits: number;
}

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

export interface Value {
  kind: Kind;
  value: number;
  unit: string;
  rest?: number;
  said?: string;
}
