// The JSON block of the planner page: what the build knows of trees, prompts
// and cards. Fields that would be empty are left out of it.

import { Tables, Value } from "./quantity";
import { Table, TableAnswer, TableEnd, TableMeasure, TableRow } from "./walker";

export interface Answer extends TableAnswer {
  text: string;
}

export interface Like {
  id: string;
  text: string;
  value: Value;
}

export interface Measure extends TableMeasure {
  likes?: Like[];
}

export interface Question extends TableRow {
  text: string;
  answers: Answer[];
  measure?: Measure;
}

export interface Ending extends TableEnd {
  title: string;
}

export interface Tree extends Table {
  title: string;
  purpose: string;
  questions: { [id: string]: Question };
  endings: { [id: string]: Ending };
}

export interface Prompt {
  ask: string;
  why?: string;
  whom?: string[];
  topic?: string; // the general ones have none
}

export interface Topic {
  id: string;
  title: string;
  prompts: string[];
}

export interface Card {
  title: string;
  prompts?: string[];
}

export interface Edition {
  name: string;
  clinic?: string;
  phone?: string;
  emergency?: string;
  endorsement?: string;
  version?: string;
}

export interface Data {
  edition: Edition;
  trees: Tree[];
  general: string[];
  prompts: { [id: string]: Prompt };
  topics: Topic[];
  cards: { [id: string]: Card };
  units?: Tables;
}

/** Reads the block; throws where the page is not whole. */
export function read(id: string): Data {
  const block = document.getElementById(id);
  if (!block || !block.textContent) throw new Error(`the page has no "${id}"`);
  return JSON.parse(block.textContent) as Data;
}
