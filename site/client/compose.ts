// What stands on the sheet and in which order; the screen and the paper both
// follow it.

import { State } from "./state";
import { entry } from "./walker";
import * as words from "./words";

/** Prompts under one heading. */
export interface Group {
  title: string;
  prompts: string[];
}

export interface Sheet {
  groups: Group[];
  /** Prompts beyond the first ones, folded in. */
  more: Group[];
  moreCount: number;
  /** Things to take along; a list to tick rather than to ask. */
  bring: string[];
}

/** So many are shown before the fold: longer lists get asked less. */
const MOST_SHOWN = 12;

/** The topic whose prompts are a list to tick at home. */
const BRING = "bring";

export function compose(state: State): Sheet {
  const all = state.sheet();
  const asked = all.filter((id) => topicOf(state, id) !== BRING);
  const more = asked.slice(MOST_SHOWN);
  return {
    groups: grouped(state, asked.slice(0, MOST_SHOWN)),
    more: grouped(state, more),
    moreCount: more.length,
    bring: all.filter((id) => topicOf(state, id) === BRING),
  };
}

/** What prints: starred ones apart and first, folded ones only where the fold is open. */
export function forPaper(state: State): Sheet & { starred: string[]; own: string[] } {
  const sheet = compose(state);
  const starred = state.starred();
  const rest = (ids: string[]): string[] => ids.filter((id) => starred.indexOf(id) < 0);
  const groups = sheet.groups.concat(state.moreOpen ? sheet.more : []);
  return {
    groups: join(groups.map((g) => ({ title: g.title, prompts: rest(g.prompts) }))),
    more: [],
    moreCount: 0,
    bring: rest(sheet.bring),
    starred,
    own: rest(state.own.map((o) => o.id)),
  };
}

/** What a prompt or an own question asks. */
export function askOf(state: State, id: string): string {
  const own = state.own.find((o) => o.id === id);
  if (own) return own.ask;
  const prompt = entry(state.data.prompts, id);
  return prompt ? prompt.ask : "";
}

function topicOf(state: State, id: string): string {
  const prompt = entry(state.data.prompts, id);
  return (prompt && prompt.topic) || "";
}

/** Groups by topic, in the order in which the topics come up. */
function grouped(state: State, prompts: string[]): Group[] {
  return join(prompts.map((id) => ({ title: titleOf(state, topicOf(state, id)), prompts: [id] })));
}

/** Joins groups with the same title; leaves out those that are empty. */
function join(groups: Group[]): Group[] {
  const out: Group[] = [];
  for (const group of groups) {
    const same = out.find((g) => g.title === group.title);
    if (same) same.prompts = same.prompts.concat(group.prompts);
    else if (group.prompts.length) out.push(group);
  }
  return out;
}

function titleOf(state: State, topic: string): string {
  const found = state.data.topics.find((t) => t.id === topic);
  return found ? found.title : words.general;
}
