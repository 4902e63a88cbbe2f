// What would change an ending, said line by line. It tells what the questions
// do; it never says what to answer.

import { App } from "../state/app";
import { units } from "../state/amounts";
import { Change, changes } from "../walk/changes";
import { make } from "../page/dom";
import { spanned } from "./spans";
import { Ending, Question } from "../tree/tree";
import { SKIP, TableMeasure, entry } from "../walk/walker";
import * as words from "../words/words";

/** A list for each question of which another answer leads elsewhere. */
export function changeLists(app: App, tree: string): HTMLElement[] {
  const state = app.state;
  const all = changes(state.tree(tree), entry(state.kept.answers, tree) || {}, state.data.units);
  const asked: string[] = [];
  for (const c of all) if (asked.indexOf(c.question) < 0) asked.push(c.question);
  return asked.map((id) => oneQuestion(app, tree, id, all.filter((c) => c.question === id)));
}

/** Answers that lead to one place share a line. */
function oneQuestion(app: App, tree: string, id: string, all: Change[]): HTMLElement {
  const question = entry(app.state.tree(tree).questions, id) as Question;
  const lines: { to: string; ifs: string[] }[] = [];
  for (const c of all) {
    const to = leads(app, tree, c);
    const line = lines.find((l) => l.to === to);
    const text = said(app, tree, question, c);
    if (line) line.ifs.push(text);
    else lines.push({ to, ifs: [text] });
  }
  const part = make("div", "", "would");
  const list = make("ul");
  part.appendChild(make("p", question.text, "asked"));
  for (const l of lines) {
    const li = make("li", `${words.ifSo(l.ifs)}: `);
    li.appendChild(make("strong", l.to));
    list.appendChild(li);
  }
  part.appendChild(list);
  return part;
}

function leads(app: App, tree: string, c: Change): string {
  const table = app.state.tree(tree);
  if (c.ending) return (entry(table.endings, c.ending) as Ending).title;
  return words.another((entry(table.questions, c.open as string) as Question).text);
}

function said(app: App, tree: string, question: Question, c: Change): string {
  if (c.range) return spanned(units(app.state), question.measure as TableMeasure, c.range);
  if (c.answer === SKIP && question.skip) return words.ifSkipped;
  const answer = question.answers.find((a) => a.id === c.answer);
  const text = answer ? answer.text : "";
  const now = app.state.chosen(tree, c.question);
  if (!question.any || (answer && answer.alone) || now[0] === SKIP) return words.ifAnswered(text);
  return now.indexOf(c.answer as string) < 0 ? words.ifTicked(text) : words.ifUnticked(text);
}
