// A question in the reader's own words.

import { State } from "../state/state";
import { alone } from "../sums/quantity";
import { gaps } from "../walk/told";
import { entry } from "../walk/walker";

/** Puts a question in other words; none brings a prompt's own words back. */
export function reword(state: State, id: string, ask: string): void {
  const own = state.kept.own.find((o) => o.id === id);
  const prompt = entry(state.data.prompts, id);
  if (own && ask && ask !== own.ask) {
    own.ask = ask;
    delete own.of; // the reader has seen to it
  }
  if (own) return;
  if (ask && prompt && ask !== state.filled(prompt.ask, prompt.ask)) state.kept.reworded[id] = gapped(state, prompt.ask, ask);
  else delete state.kept.reworded[id];
}

/** Puts gaps in the place of amounts: a changed amount changes in the reader's words as well. */
function gapped(state: State, from: string, ask: string): string {
  for (const fact of gaps(from)) {
    const words = state.wordsOf(fact);
    if (words) ask = ask.split(words).join(`{${fact}}`).split(state.wordsOf(fact, alone)).join(`{${fact} alone}`);
  }
  return ask;
}
