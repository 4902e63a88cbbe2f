// What stands on the sheet and in which order; the screen, the paper and the
// plain text all follow it.

import { State } from "../state/state";
import { said } from "../tree/said";
import { Question } from "../tree/tree";
import { SKIP, Step, UNSURE, entry } from "../walk/walker";
import * as words from "../words/words";

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

/** The theme whose prompts are a list to tick at home. */
const BRING = "bring";

export function compose(state: State): Sheet {
  const all = state.sheet();
  const asked = all.filter((id) => themeOf(state, id) !== BRING);
  const more = asked.slice(MOST_SHOWN);
  return {
    groups: grouped(state, asked.slice(0, MOST_SHOWN)),
    more: grouped(state, more),
    moreCount: more.length,
    bring: all.filter((id) => themeOf(state, id) === BRING),
  };
}

/** What prints: starred ones apart and first, folded ones only where the fold is open. */
export function forPaper(state: State): Sheet & { starred: string[]; own: string[] } {
  const sheet = compose(state);
  const starred = state.starred();
  const rest = (ids: string[]): string[] => ids.filter((id) => starred.indexOf(id) < 0);
  const groups = sheet.groups.concat(state.kept.moreOpen ? sheet.more : []);
  return {
    groups: join(groups.map((g) => ({ title: g.title, prompts: rest(g.prompts) }))),
    more: [],
    moreCount: 0,
    bring: rest(sheet.bring),
    starred,
    own: rest(state.kept.own.map((o) => o.id)),
  };
}

/** All that is asked, in the order of the paper. */
export function asked(state: State): string[] {
  const sheet = forPaper(state);
  return sheet.groups.reduce((ids, g) => ids.concat(g.prompts), sheet.starred.slice()).concat(sheet.own);
}

/**
 * Moves a question one up or down. The first of a heading moves with its whole
 * heading, so headings stay whole; at the fold it changes sides with its
 * neighbour there. The reader's own questions move among themselves.
 */
export function move(state: State, id: string, by: 1 | -1): boolean {
  const own = state.kept.own;
  const at = own.findIndex((o) => o.id === id);
  if (at >= 0) return swap(own, at, at + by);
  const sheet = compose(state);
  const moved = [sheet.groups, sheet.more].some((part) => moveIn(part, id, by)) || swap(sheet.bring, sheet.bring.indexOf(id), sheet.bring.indexOf(id) + by);
  const order = flat(sheet.groups).concat(flat(sheet.more));
  const place = order.indexOf(id);
  const crossed = !moved && place >= 0 && swap(order, place, place + by);
  if (moved || crossed) state.kept.order = order.concat(sheet.bring);
  return moved || crossed;
}

function moveIn(groups: Group[], id: string, by: 1 | -1): boolean {
  const g = groups.findIndex((one) => one.prompts.indexOf(id) >= 0);
  const prompts = g < 0 ? [] : (groups[g] as Group).prompts;
  const at = prompts.indexOf(id);
  return at >= 0 && (swap(prompts, at, at + by) || swap(groups, g, g + by));
}

function swap<T>(list: T[], a: number, b: number): boolean {
  if (a < 0 || b < 0 || b >= list.length) return false;
  const one = list[a] as T;
  list[a] = list[b] as T;
  list[b] = one;
  return true;
}

function flat(groups: Group[]): string[] {
  return groups.reduce((ids: string[], g) => ids.concat(g.prompts), []);
}

/** Why a prompt is on the sheet: the trees that brought it, and what the reader said there last. */
export function cameFrom(state: State, id: string): string[] {
  const from = state.broughtBy(id).map((tree) => words.cameFrom(state.tree(tree).title, telling(state, tree)));
  if (state.data.general.indexOf(id) >= 0) from.unshift(words.forAnyVisit);
  if (state.forLater().indexOf(id) >= 0) from.push(words.fromSafety);
  return from.length ? from : [words.youAdded];
}

/** The answers that say most: amounts, and the last two that are neither skipped nor unsure. */
function telling(state: State, tree: string): string[] {
  const questions = state.tree(tree).questions;
  const steps = state.path(tree).steps.filter((s) => [SKIP, UNSURE].indexOf(s.chosen[0] as string) < 0);
  const measured = (s: Step): boolean => !!(entry(questions, s.question) as Question).measure;
  const last = steps.filter((s) => !measured(s)).slice(-2);
  return steps.filter((s) => measured(s) || last.indexOf(s) >= 0)
    .reduce((texts: string[], s) => texts.concat(said(entry(questions, s.question) as Question, s.chosen, state.data.units)), []);
}

/** What the reader answered in one topic. */
export interface Answered {
  title: string;
  lines: { asked: string; said: string }[];
}

/** What the reader answered, topic by topic. An answer that told a sign stays in the tab; its caution says what to do. */
export function answered(state: State): Answered[] {
  return state.kept.taken.map((tree) => {
    const { title, questions } = state.tree(tree);
    const lines = state.path(tree).steps.filter((s) => !state.signsOf(tree, s.question, s.chosen).length).map((s) => {
      const question = entry(questions, s.question) as Question;
      return { asked: question.text, said: said(question, s.chosen, state.data.units).join(", ") };
    });
    return { title, lines };
  }).filter((one) => one.lines.length);
}

function themeOf(state: State, id: string): string {
  const prompt = entry(state.data.prompts, id);
  return (prompt && prompt.theme) || "";
}

/** Groups by theme, in the order in which the themes come up. */
function grouped(state: State, prompts: string[]): Group[] {
  return join(prompts.map((id) => ({ title: titleOf(state, themeOf(state, id)), prompts: [id] })));
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

function titleOf(state: State, theme: string): string {
  const found = state.data.themes.find((t) => t.id === theme);
  return found ? found.title : words.general;
}
