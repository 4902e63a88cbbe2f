// What stands on the sheet and in which order; the screen, the paper and the
// plain text all follow it.

import { MOST_STARS } from "../state/kept";
import { State } from "../state/state";
import { said } from "../tree/said";
import { Question } from "../tree/tree";
import { gaps } from "../walk/told";
import { SKIP, Step, UNSURE, addOnce, entry } from "../walk/walker";
import * as words from "../words/words";

/** Prompts under one heading. */
export interface Section {
  title: string;
  prompts: string[];
}

export interface Sheet {
  /** Those that are asked first: the starred ones, and up to three in all those that hang most on what was told. */
  first: string[];
  /** The others, a section for each of those to ask. */
  sections: Section[];
  /** Prompts beyond those, folded in. */
  more: Section[];
  moreCount: number;
  /** Things to take along; a list to tick rather than to ask. */
  bring: string[];
  own: string[];
}

/** So many are shown before the fold: longer lists get asked less. */
const MOST_SHOWN = 12;

/** The theme whose prompts are a list to tick at home. */
const BRING = "bring";

export function compose(state: State): Sheet {
  const all = ranked(state);
  const first = firstOf(state, all);
  const rest = (ids: string[]): string[] => ids.filter((id) => first.indexOf(id) < 0);
  const shown = all.filter((id) => !toBring(state, id));
  const more = rest(shown.slice(MOST_SHOWN));
  return {
    first,
    sections: byWhom(state, rest(shown.slice(0, MOST_SHOWN))),
    more: byWhom(state, more),
    moreCount: more.length,
    bring: rest(all.filter((id) => toBring(state, id))),
    own: rest(state.kept.own.map((o) => o.id)),
  };
}

/** The starred ones; where there are fewer than three, those that come first fill the places. */
function firstOf(state: State, all: string[]): string[] {
  const first = state.starred();
  for (const id of all) if (first.length < MOST_STARS && !toBring(state, id)) addOnce(first, [id]);
  return first;
}

/**
 * The prompts of the sheet in their order. What the reader ordered stays so. Of the others, those come first that hang on
 * what this reader told: with their own numbers, then for what they told or by a card, then an ending's; the ones for any
 * visit come last, but before the fold.
 */
function ranked(state: State): string[] {
  const all = state.sheet();
  const ordered = all.filter((id) => state.kept.order.indexOf(id) >= 0);
  const general = all.filter((id) => ordered.indexOf(id) < 0 && state.data.general.indexOf(id) >= 0);
  const personal = state.cardPrompts("").concat(state.forLater());
  const rank = (id: string): number => {
    const prompt = entry(state.data.prompts, id) || { ask: "" };
    const shown = gaps(prompt.ask);
    if (shown.length && shown.every((fact) => state.isTold(fact))) return 0;
    return (prompt.presumes || []).length || personal.indexOf(id) >= 0 || entry(state.kept.picks, id) ? 1 : 2;
  };
  const others = all.filter((id) => ordered.indexOf(id) < 0 && general.indexOf(id) < 0).map((id, i) => ({ id, i, rank: rank(id) }));
  const out = ordered.concat(others.sort((a, b) => a.rank - b.rank || a.i - b.i).map((one) => one.id));
  const asked = out.filter((id) => !toBring(state, id));
  const last = asked[MOST_SHOWN - general.length];
  out.splice(last ? out.indexOf(last) : out.length, 0, ...general);
  return out;
}

/** What prints: folded ones only where the fold is open. */
export function forPaper(state: State): Sheet {
  const sheet = compose(state);
  const sections = sheet.sections.concat(state.kept.moreOpen ? sheet.more : []);
  return { ...sheet, sections: join(sections), more: [], moreCount: 0 };
}

/** All that is asked, in the order of the paper. */
export function asked(state: State): string[] {
  const sheet = forPaper(state);
  return sheet.sections.reduce((ids, s) => ids.concat(s.prompts), sheet.first.slice()).concat(sheet.own);
}

/**
 * Moves a question one up or down. Among the first ones it changes places with one that is starred as it is. The first of
 * a heading moves with its whole heading, so headings stay whole; at the fold it changes sides with its
 * neighbour there. The reader's own questions move among themselves.
 */
export function move(state: State, id: string, by: 1 | -1): boolean {
  const sheet = compose(state);
  const own = state.kept.own;
  const at = own.findIndex((o) => o.id === id);
  if (state.isStarred(id)) return moveStar(state, id, by);
  if (at >= 0) return swap(own, at, at + by);
  const first = sheet.first.filter((other) => !state.isStarred(other));
  const moved = swap(first, first.indexOf(id), first.indexOf(id) + by) || [sheet.sections, sheet.more].some((part) => moveIn(part, id, by)) || swap(sheet.bring, sheet.bring.indexOf(id), sheet.bring.indexOf(id) + by);
  const order = first.concat(flat(sheet.sections), flat(sheet.more));
  const place = order.indexOf(id);
  const crossed = !moved && place >= 0 && swap(order, place, place + by);
  if (moved || crossed) state.kept.order = order.concat(sheet.bring);
  return moved || crossed;
}

function moveStar(state: State, id: string, by: 1 | -1): boolean {
  const stars = state.starred();
  const moved = swap(stars, stars.indexOf(id), stars.indexOf(id) + by);
  if (moved) state.kept.stars = stars;
  return moved;
}

function moveIn(sections: Section[], id: string, by: 1 | -1): boolean {
  const which = sections.findIndex((one) => one.prompts.indexOf(id) >= 0);
  const prompts = which < 0 ? [] : (sections[which] as Section).prompts;
  const at = prompts.indexOf(id);
  return at >= 0 && (swap(prompts, at, at + by) || swap(sections, which, which + by));
}

function swap<T>(list: T[], a: number, b: number): boolean {
  if (a < 0 || b < 0 || b >= list.length) return false;
  const one = list[a] as T;
  list[a] = list[b] as T;
  list[b] = one;
  return true;
}

function flat(sections: Section[]): string[] {
  return sections.reduce((ids: string[], s) => ids.concat(s.prompts), []);
}

/** Trees whose ending, or a card picked up in them, brings a prompt. */
export function broughtBy(state: State, prompt: string): string[] {
  return state.kept.taken.filter((tree) => {
    const path = state.path(tree);
    const ending = path.ending && !state.signOfEnding(path.ending) ? entry(state.tree(tree).endings, path.ending) : undefined;
    const prompts = ((ending && ending.prompts) || []).slice();
    for (const card of path.cards) addOnce(prompts, entry(state.data.cards, card) || []);
    return prompts.indexOf(prompt) >= 0;
  });
}

/** Why a prompt is on the sheet: the trees that brought it, and what the reader said there last. */
export function cameFrom(state: State, id: string): string[] {
  const from = broughtBy(state, id).map((tree) => words.cameFrom(state.tree(tree).title, telling(state, tree)));
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

function toBring(state: State, id: string): boolean {
  return state.data.themes.some((t) => t.id === BRING && t.prompts.indexOf(id) >= 0);
}

/** Sections by whom to ask first, in the order in which they come up. */
function byWhom(state: State, prompts: string[]): Section[] {
  return join(prompts.map((id) => ({ title: words.forWhom(whomOf(state, id)), prompts: [id] })));
}

function whomOf(state: State, id: string): string {
  const prompt = entry(state.data.prompts, id);
  return ((prompt && prompt.whom) || [])[0] || "";
}

/** Joins sections with the same title; leaves out those that are empty. */
function join(sections: Section[]): Section[] {
  const out: Section[] = [];
  for (const section of sections) {
    const same = out.find((s) => s.title === section.title);
    if (same) same.prompts = same.prompts.concat(section.prompts);
    else if (section.prompts.length) out.push(section);
  }
  return out;
}
