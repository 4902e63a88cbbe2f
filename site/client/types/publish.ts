// What builder/publish gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

import * as conflict from "./conflict";
import * as figure from "./figure";
import * as quantity from "./quantity";
import * as safety from "./safety";
import * as search from "./search";
import * as tree from "./tree";

export interface Data {
  edition: DataEdition;
  safety: safety.Table;
  general: string[];
  prompts: { [key: string]: DataPrompt };
}

export interface DataAbout {
  facts: { [key: string]: DataSentence };
  lines: { [key: string]: DataLine };
  drawn: number[];
}

export interface DataBeside {
  figure: string;
  title: string;
  script: string;
}

export interface DataEdition {
  name: string;
  clinic?: string;
  phone?: string;
  emergency: string;
  urgent: string;
  crisis: string;
  endorsement?: string;
  version?: string;
  shared?: boolean;
}

export interface DataFact {
  of?: string;
  unit?: string;
  own?: boolean;
}

export interface DataLine {
  part: number;
  amount?: string;
  these?: string;
  list?: { [key: string]: string };
  says?: { [key: string]: string };
}

export interface DataPrompt {
  ask: string;
  why?: string;
  whom?: string[];
  presumes?: string[];
  unless?: string[];
}

export interface DataPull {
  id: string;
  of: string[];
  note?: boolean;
  open?: boolean;
}

export interface DataPulls {
  most: number;
  names: { [key: string]: string };
  sets: DataPull[];
  leans: string[][];
  say: conflict.Summary;
}

export interface DataSearch {
  signs: search.SignsSaid;
  crisis?: string[];
  say: DataSearchSay;
  most: number;
  shared?: boolean;
}

export interface DataSearchSay {
  found: string[];
  taken: string;
  lost: string;
}

export interface DataSentence {
  part: number;
  says: string;
}

export interface DataTheme {
  id: string;
  title: string;
  prompts: string[];
}

export interface DataTree extends tree.Table {
  title: string;
}

export interface FigureData {
  units: quantity.Tables;
  planner: string;
  figures: { [key: string]: figure.Coded };
}

export interface GroundPart {
  tiles?: { [key: string]: GroundShape };
  owns?: { [key: string]: GroundShape };
  more?: { [key: string]: string };
  style?: string;
  cuts?: string;
  shown?: string;
  drawn?: string;
}

export interface GroundShape {
  wide: number;
  tall: number;
  body: string;
  usual?: number[];
  run?: number;
  deep?: number;
  of?: string[];
}

export interface Part {
  html?: string;
  tree?: DataTree;
  cards?: { [key: string]: string[] };
  beside?: { [key: string]: DataBeside };
  units?: quantity.Tables;
  figures?: { [key: string]: figure.Coded };
  prompts?: { [key: string]: DataPrompt };
  themes?: DataTheme[];
  facts?: { [key: string]: DataFact };
  about?: DataAbout;
  voice?: string;
  tells?: string;
  said?: { [key: string]: string };
  at?: { [key: string]: string };
}
