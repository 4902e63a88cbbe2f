// A tree with its words. The build gives a table without them: they are read off
// the templates that show them, so no page holds them a second time.

import { slot, template } from "../page/dom";
import { DataTree } from "../types/publish";
import { TableAnswer, TableEnd, TableLike, TableMeasure, TableRow } from "../types/tree";
import { entry } from "../walk/walker";

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

/** Adds its words to a table, which is a tree from then on. What says an ending may stand elsewhere than in a template of its own. */
export function addWords(table: DataTree, templateOf: (ending: string) => string): asserts table is Tree {
  const tree = table as Tree;
  for (const id of Object.keys(tree.questions)) {
    const question = entry(tree.questions, id) as Question;
    const shown = template(`question-${tree.id}-${id}`);
    const labels = (part: Answer | Like): void => {
      part.text = textOf(shown, `button[value="${part.id}"] .says, input[value="${part.id}"] + .says`);
    };
    question.text = slot(shown, "focus").textContent || "";
    question.answers = question.answers || [];
    question.answers.forEach(labels);
    if (question.measure) (question.measure.likes || []).forEach(labels);
  }
  for (const id of Object.keys(tree.endings)) {
    (entry(tree.endings, id) as Ending).title = textOf(template(templateOf(id)), "h2, h3");
  }
}

/** The template of an ending that has one of its own. */
export function templateOfEnding(tree: string, ending: string): string {
  return `ending-${tree}-${ending}`;
}

function textOf(root: ParentNode, selector: string): string {
  const found = root.querySelector(selector);
  if (!found) throw new Error(`the page has no "${selector}"`);
  return found.textContent || "";
}
