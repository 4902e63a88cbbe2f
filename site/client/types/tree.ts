// What builder/tree gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

import * as formula from "./formula";
import * as quantity from "./quantity";

export interface Table {
  id: string;
  start: string;
  questions: { [key: string]: TableRow };
  endings: { [key: string]: TableEnd };
  values?: TableValue[];
}

export interface TableAnswer {
  id: string;
  go?: string;
  cards?: string[];
  alone?: boolean;
  tells?: string[];
  ground?: string;
}

export interface TableEnd {
  safety?: boolean;
  prompts?: string[];
  themes?: string[];
  next?: string[];
  own?: TableOwn;
}

export interface TableLike {
  id: string;
  is: string;
  value: quantity.Value;
}

export interface TableMeasure extends quantity.Measure {
  likes?: TableLike[];
  ground?: string;
}

export interface TableOwn {
  name: string;
  of: string[];
}

export interface TableRoute {
  if?: formula.Coded;
  go: string;
  cards?: string[];
}

export interface TableRow {
  any?: boolean;
  answers?: TableAnswer[];
  measure?: TableMeasure;
  routes?: TableRoute[];
  go?: string;
  skip?: string;
  left: number;
  tells?: string[];
}

export interface TableValue {
  id: string;
  kind: string;
  unit?: string;
  is: formula.Coded;
}
