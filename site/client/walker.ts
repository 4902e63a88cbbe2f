// The table walker: the browser's copy of the rules in builder/tree/walk.go,
// which is the reference. It knows no page, so a Go test can run it alone and
// compare every path. Keep the language plain here for that test's sake.

export interface TableAnswer {
  id: string;
  go?: string;
  cards?: string[];
  alone?: boolean;
}

export interface TableRow {
  any?: boolean;
  answers: TableAnswer[];
  go?: string;
  skip?: string;
  left: number;
}

export interface TableEnd {
  safety?: boolean;
  prompts?: string[];
  topics?: string[];
  next?: string[];
}

export interface Table {
  id: string;
  start: string;
  questions: { [id: string]: TableRow };
  endings: { [id: string]: TableEnd };
}

/** Question id to chosen answer ids. A skipped question holds just SKIP. */
export interface Answers {
  [question: string]: string[];
}

export interface Step {
  question: string;
  chosen: string[];
}

/** How far a walk came. One of open and ending is set, the other is empty. */
export interface Path {
  steps: Step[];
  open: string;
  ending: string;
  cards: string[];
}

/** What a skipped question holds; no answer may have it as its id. */
export const SKIP = "skip";

/** Ids come from authors, and "constructor" is a fine id, so look at own keys only. */
export function entry<T>(map: { [id: string]: T }, id: string): T | undefined {
  return Object.prototype.hasOwnProperty.call(map, id) ? map[id] : undefined;
}

/** Follows the answers from the start. Throws where Go's Walk gives an error. */
export function walk(table: Table, answers: Answers): Path {
  const path: Path = { steps: [], open: "", ending: "", cards: [] };
  let most = Object.keys(table.questions).length + 1;
  let at = table.start;
  for (; most > 0; most--) {
    if (entry(table.endings, at)) {
      path.ending = at;
      return path;
    }
    const row = entry(table.questions, at);
    if (!row) throw new Error(`tree "${table.id}" has no question or ending "${at}"`);
    const chosen = entry(answers, at);
    if (!chosen) {
      path.open = at;
      return path;
    }
    const wrong = refusal(row, at, chosen);
    if (wrong) throw new Error(wrong);
    path.steps.push({ question: at, chosen: inOrder(row, chosen) });
    addOnce(path.cards, cardsOf(row, chosen));
    at = nextOf(row, chosen);
  }
  throw new Error(`tree "${table.id}" runs in a circle at "${at}"`);
}

/** The most questions that can still follow this one. */
export function left(table: Table, question: string): number {
  const row = entry(table.questions, question);
  return row ? row.left : 0;
}

/** What is wrong with the chosen answers; empty if the question takes them. */
export function refusal(row: TableRow, question: string, chosen: string[]): string {
  if (chosen.length === 0) return `question "${question}" is left without an answer`;
  for (let i = 0; i < chosen.length; i++) {
    const id = chosen[i] as string;
    if (chosen.indexOf(id) < i) return `question "${question}" is answered with "${id}" twice`;
    if (id === SKIP && row.skip) {
      if (chosen.length > 1) return `question "${question}" is both skipped and answered`;
      continue;
    }
    const answer = answerOf(row, id);
    if (!answer) return `question "${question}" has no answer "${id}"`;
    if (chosen.length === 1) continue;
    if (!row.any) return `question "${question}" takes one answer, and ${chosen.length} were given`;
    if (answer.alone) return `question "${question}": answer "${id}" cannot be given together with others`;
  }
  return "";
}

/**
 * Where accepted answers lead: the first chosen answer, in the file's order, that
 * has a way of its own decides; where none has, the question's own way counts.
 */
function nextOf(row: TableRow, chosen: string[]): string {
  if (isSkip(row, chosen)) return row.skip as string;
  for (let i = 0; i < row.answers.length; i++) {
    const answer = row.answers[i] as TableAnswer;
    if (answer.go && chosen.indexOf(answer.id) >= 0) return answer.go;
  }
  return row.go || "";
}

function cardsOf(row: TableRow, chosen: string[]): string[] {
  const cards: string[] = [];
  for (let i = 0; i < row.answers.length; i++) {
    const answer = row.answers[i] as TableAnswer;
    if (answer.cards && chosen.indexOf(answer.id) >= 0) addOnce(cards, answer.cards);
  }
  return cards;
}

function inOrder(row: TableRow, chosen: string[]): string[] {
  if (isSkip(row, chosen)) return chosen;
  const out: string[] = [];
  for (let i = 0; i < row.answers.length; i++) {
    const id = (row.answers[i] as TableAnswer).id;
    if (chosen.indexOf(id) >= 0) out.push(id);
  }
  return out;
}

function isSkip(row: TableRow, chosen: string[]): boolean {
  return chosen.length === 1 && chosen[0] === SKIP && !!row.skip;
}

function answerOf(row: TableRow, id: string): TableAnswer | undefined {
  for (let i = 0; i < row.answers.length; i++) {
    const answer = row.answers[i] as TableAnswer;
    if (answer.id === id) return answer;
  }
  return undefined;
}

/** Adds those of more that are not in list yet, and keeps the order. */
export function addOnce(list: string[], more: string[]): void {
  for (let i = 0; i < more.length; i++) {
    const id = more[i] as string;
    if (list.indexOf(id) < 0) list.push(id);
  }
}
