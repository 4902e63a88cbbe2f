// What builder/figure gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

import * as formula from "./formula";
import * as quantity from "./quantity";

export interface Coded {
  inputs: CodedInput[];
  values: CodedValue[];
  texts: CodedText[];
  moves: CodedMove[];
  handles: CodedHandle[];
  at?: Spot[];
}

export interface CodedCase {
  if?: formula.Coded;
  text: string;
}

export interface CodedHandle {
  part: string;
  input: string;
  right?: number;
  down?: number;
  about?: number[];
}

export interface CodedInput {
  id: string;
  if?: formula.Coded;
  measure?: quantity.Measure;
  say?: CodedCase[];
  choices?: { [key: string]: string };
}

export interface CodedMove {
  part: string;
  attr: string;
  is: CodedPart[];
}

export type CodedPart = string | ["n", formula.Coded];

export interface CodedText {
  id: string;
  cases: CodedCase[];
}

export interface CodedValue {
  id: string;
  if?: formula.Coded;
  is: formula.Coded;
  unit?: string;
  step?: number;
  alone?: boolean;
}

export interface Spot {
  question: string;
  input: string;
  less?: string;
  sum?: string[];
  is: string;
  by?: string;
  other?: { [key: string]: string };
}
