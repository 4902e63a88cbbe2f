// The JSON block of the planner page: what the build knows of trees, prompts
// and cards. Fields that would be empty are left out of it. The words of trees
// are not in it a second time: they are read off the templates that show them.

import { slot, template } from "../page/dom";
import { Said, Table as Safety, signOf } from "../safety/safety";
import { Data as Block, DataTopic as Topic, DataTree } from "../types/publish";
import { TableAnswer, TableEnd, TableLike, TableMeasure, TableRow } from "../types/tree";
import { entry } from "../walk/walker";

export type { Topic };

/** An answer with its words, as all below: they are read off the templates. */
export interface Answer extends TableAnswer {
  text: string;
}

export interface Like extends TableLike {
  text: string;
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

export interface Tree extends DataTree {
  questions: { [id: string]: Question };
  endings: { [id: string]: Ending };
}

export interface Data extends Block {
  trees: Tree[];
}

/** Reads the block; throws where the page is not whole. */
export function read(id: string): Data {
  const block = document.getElementById(id);
  if (!block || !block.textContent) throw new Error(`the page has no "${id}"`);
  const data = JSON.parse(block.textContent) as Data;
  for (const tree of data.trees) addWords(tree, data.safety);
  return data;
}

/** The sign of the safety screen that an ending stands for, or that a way leads to. */
export function signOfEnding(safety: Safety, ending: string): Said | undefined {
  const found = ending.indexOf(SIGN) === 0 ? signOf(safety, ending.slice(SIGN.length)) : undefined;
  return found && { group: found.group.id, sign: found.sign.id };
}

const SIGN = "safety-";

function templateOfEnding(safety: Safety, tree: string, ending: string): DocumentFragment {
  const sign = signOfEnding(safety, ending);
  return template(sign ? templateOfTold(sign) : `ending-${tree}-${ending}`);
}

/** The template that holds the caution of something told. */
export function templateOfTold(said: Said): string {
  return `told-${said.group}-${said.sign}`;
}

function addWords(tree: Tree, safety: Safety): void {
  for (const id of Object.keys(tree.questions)) {
    const question = entry(tree.questions, id) as Question;
    const shown = template(`question-${tree.id}-${id}`);
    const labels = (part: Answer | Like): void => {
      part.text = textOf(shown, `label[for="answer-${tree.id}-${id}-${part.id}"]`);
    };
    question.text = slot(shown, "focus").textContent || "";
    question.answers = question.answers || [];
    question.answers.forEach(labels);
    if (question.measure) (question.measure.likes || []).forEach(labels);
  }
  for (const id of Object.keys(tree.endings)) {
    (entry(tree.endings, id) as Ending).title = textOf(templateOfEnding(safety, tree.id, id), "h3");
  }
}

function textOf(root: ParentNode, selector: string): string {
  const found = root.querySelector(selector);
  if (!found) throw new Error(`the page has no "${selector}"`);
  return found.textContent || "";
}
