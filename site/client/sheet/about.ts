// "About me", the band at the top of the sheet: sentences made of what the reader told, and of nothing else. An answer
// with words of its own speaks for the facts that it tells, so nothing is said twice.

import { oneLine } from "../state/kept";
import { State } from "../state/state";
import { DataAbout, DataLine } from "../types/publish";
import { by } from "../walk/told";
import { SKIP, Step, TableRow, entry } from "../walk/walker";
import * as words from "../words/words";

/** A sentence, and the id by which the reader may take it off. */
export interface Sentence {
  id: string;
  text: string;
  part: number;
}

/** The fact that is told in the reader's own words. It is taken off where it is written. */
export const DAY = "day";

/** Every sentence of what was told, in the order of the sheet, those taken off among them. */
export function sentences(state: State): Sentence[] {
  const about = state.data.about as DataAbout;
  const out: Sentence[] = [];
  const spoken: string[] = []; // facts for which an answer speaks
  const said: string[] = [];
  const add = (part: number, id: string, text: string): void => {
    if (!text || said.indexOf(text) >= 0) return;
    said.push(text);
    out.push({ part, id, text });
  };
  for (const tree of state.kept.taken) {
    for (const step of state.path(tree).steps) {
      const line = entry(about.lines, `${tree}/${step.question}`);
      if (!line || step.chosen[0] === SKIP || state.signsOf(tree, step.question, step.chosen).length) continue;
      for (const one of ofLine(state, line, tree, step, spoken)) add(line.part, one.id, one.text);
    }
  }
  for (const fact of toldFacts(state)) {
    const own = entry(about.facts, fact);
    if (own && spoken.indexOf(fact) < 0) add(own.part, fact, filled(state, own.says, fact));
  }
  const placed = out.map((one, i) => ({ one, i }));
  return placed.sort((a, b) => a.one.part - b.one.part || a.i - b.i).map(({ one }) => one);
}

/** What was told in topics and of the leg, and the day; a sign of the safety screen stands in its caution alone. */
function toldFacts(state: State): string[] {
  const leg = state.sitting.told.leg;
  const facts = Object.keys(state.told()).concat((leg && entry(state.data.safety.leg, leg)) || []);
  return state.kept.day ? facts.concat(DAY) : facts;
}

/** Those that stand on the sheet. */
export function onSheet(state: State): Sentence[] {
  return sentences(state).filter((one) => !isOff(state, one.id));
}

export function about(state: State): string[] {
  return onSheet(state).map((one) => one.text);
}

/** What one question's answers say; spoken gains the facts that they speak for. */
function ofLine(state: State, line: DataLine, tree: string, step: Step, spoken: string[]): Omit<Sentence, "part">[] {
  const id = `${tree}/${step.question}`;
  const row = entry(state.tree(tree).questions, step.question) as TableRow;
  if (row.measure) return ofAmount(state, line, id, row, step, spoken);
  const out: Omit<Sentence, "part">[] = [];
  const listed: string[] = [];
  for (const answer of step.chosen) {
    const part = entry(line.list || {}, answer);
    const text = entry(line.says || {}, answer);
    if (part) listed.push(part);
    if (text) out.push({ id: `${id}/${answer}`, text });
    if (part || text) spoken.push(...by(row, [answer]));
  }
  if (listed.length) out.unshift({ id, text: words.these(line.these as string, listed) });
  return out;
}

/** An amount is said where it was told first. */
function ofAmount(state: State, line: DataLine, id: string, row: TableRow, step: Step, spoken: string[]): Omit<Sentence, "part">[] {
  const fact = (row.tells || [])[0] as string;
  const at = entry(state.told(), fact);
  const text = entry(line.says || {}, step.chosen[0] as string) || line.amount;
  if (!text || !at || `${at.tree}/${at.question}` !== id) return [];
  spoken.push(fact);
  return [{ id: fact, text: filled(state, text, fact) }];
}

/** Puts the amount into its gap; nothing where it is not known. */
function filled(state: State, text: string, fact: string): string {
  const gap = `{${fact}}`;
  if (text.indexOf(gap) < 0) return text;
  const amount = fact === DAY ? oneLine(state.kept.day) : state.wordsOf(fact);
  return amount && text.split(gap).join(amount);
}

export function isOff(state: State, id: string): boolean {
  return (state.kept.unsaid || []).indexOf(id) >= 0;
}

/** Takes a sentence off, or puts it back. What is no longer told is forgotten, so that nothing that is saved names it. */
export function say(state: State, id: string, on: boolean): void {
  keep(state, (state.kept.unsaid || []).filter((other) => other !== id).concat(on ? [] : [id]));
}

/** Forgets sentences that were taken off and are no longer told. */
export function forget(state: State): void {
  keep(state, state.kept.unsaid || []);
}

function keep(state: State, ids: string[]): void {
  const told = sentences(state).map((one) => one.id);
  const unsaid = ids.filter((id) => told.indexOf(id) >= 0);
  if (unsaid.length) state.kept.unsaid = unsaid;
  else delete state.kept.unsaid;
}
