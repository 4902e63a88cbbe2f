// What the reader has said so far. It lives in this page's memory and nowhere
// else: closing the page, or clear, ends it.

import { Answers, Path, addOnce, entry, walk } from "./walker";
import { Change, changes } from "./changes";
import { Data, Ending, Tree } from "./data";

/** A question of the reader's own. */
export interface Own {
  id: string;
  ask: string;
}

/** More stars than this would star nothing. */
export const MOST_STARS = 3;

export class State {
  /** Trees the reader began, in that order. */
  taken: string[] = [];
  /** Trees the reader chose and has not begun. */
  waiting: string[] = [];
  own: Own[] = [];
  /** Whether the reader opened the fold of further prompts on the sheet. */
  moreOpen = false;

  private stars: string[] = [];
  private answers: { [tree: string]: Answers } = {};
  /** Prompts the reader put on (true) or took off (false) against what came up. */
  private picks: { [prompt: string]: boolean } = {};
  private owns = 0;

  constructor(readonly data: Data) {}

  tree(id: string): Tree {
    for (const t of this.data.trees) if (t.id === id) return t;
    throw new Error(`no tree "${id}"`);
  }

  /** Marks a tree as begun and takes it off the waiting ones. */
  begin(tree: string): void {
    addOnce(this.taken, [tree]);
    this.waiting = this.waiting.filter((id) => id !== tree);
  }

  chosen(tree: string, question: string): string[] {
    return entry(this.answersOf(tree), question) || [];
  }

  answer(tree: string, question: string, chosen: string[]): void {
    this.answersOf(tree)[question] = chosen;
  }

  path(tree: string): Path {
    return walk(this.tree(tree), this.answersOf(tree), this.data.units);
  }

  /** What would change the ending that a tree has reached. */
  changes(tree: string): Change[] {
    return changes(this.tree(tree), this.answersOf(tree), this.data.units);
  }

  /** The endings reached, grave ones first, else in the order of the trees taken. */
  endings(): { tree: string; id: string; ending: Ending }[] {
    const reached = [];
    for (const tree of this.taken) {
      const id = this.path(tree).ending;
      const ending = id ? entry(this.tree(tree).endings, id) : undefined;
      if (ending) reached.push({ tree, id, ending });
    }
    return reached.filter((r) => r.ending.safety).concat(reached.filter((r) => !r.ending.safety));
  }

  /** Cards picked up on all paths, those of the tree at hand first. */
  cards(first: string): string[] {
    const cards: string[] = [];
    if (first) addOnce(cards, this.path(first).cards);
    for (const tree of this.taken) addOnce(cards, this.path(tree).cards);
    return cards;
  }

  /** Prompts that the endings and cards bring, general ones not among them. */
  cameUp(): string[] {
    const prompts: string[] = [];
    for (const r of this.endings()) addOnce(prompts, r.ending.prompts || []);
    addOnce(prompts, this.cardPrompts(""));
    return prompts;
  }

  cardPrompts(first: string): string[] {
    const prompts: string[] = [];
    for (const id of this.cards(first)) addOnce(prompts, entry(this.data.cards, id) || []);
    return prompts;
  }

  /** Prompts on the sheet: general, then what came up, then what was added. */
  sheet(): string[] {
    const prompts: string[] = [];
    addOnce(prompts, this.data.general);
    addOnce(prompts, this.cameUp());
    addOnce(prompts, Object.keys(this.picks));
    return prompts.filter((id) => this.isOn(id));
  }

  /** Prompts that the reader took off and may put back. */
  takenOff(): string[] {
    return Object.keys(this.picks).filter((id) => !this.isOn(id));
  }

  isOn(prompt: string): boolean {
    const pick = entry(this.picks, prompt);
    return pick === undefined ? this.byDefault(prompt) : pick;
  }

  /** Only a choice against the default is kept, so changed answers still count. */
  pick(prompt: string, on: boolean): void {
    if (on === this.byDefault(prompt)) delete this.picks[prompt];
    else this.picks[prompt] = on;
    if (!on) this.unstar(prompt);
  }

  private byDefault(prompt: string): boolean {
    return this.data.general.indexOf(prompt) >= 0 || this.cameUp().indexOf(prompt) >= 0;
  }

  /** Starred prompts and own questions. A prompt that no longer comes up lends its star to others. */
  starred(): string[] {
    return this.stars.filter((id) => this.own.some((o) => o.id === id) || this.isOn(id));
  }

  isStarred(id: string): boolean {
    return this.starred().indexOf(id) >= 0;
  }

  /** Stars a prompt or an own question; false if there are enough stars already. */
  star(id: string): boolean {
    this.stars = this.starred();
    if (this.stars.length >= MOST_STARS) return false;
    addOnce(this.stars, [id]);
    return true;
  }

  unstar(id: string): void {
    this.stars = this.stars.filter((s) => s !== id);
  }

  addOwn(ask: string): void {
    this.owns++;
    this.own.push({ id: `own ${this.owns}`, ask }); // the blank keeps it apart from prompt ids
  }

  removeOwn(id: string): void {
    this.own = this.own.filter((o) => o.id !== id);
    this.unstar(id);
  }

  /** Whether there is anything to clear. */
  isEmpty(): boolean {
    return !this.taken.length && !this.waiting.length && !this.own.length && !this.stars.length && !Object.keys(this.picks).length;
  }

  clear(): void {
    this.taken = [];
    this.waiting = [];
    this.stars = [];
    this.own = [];
    this.moreOpen = false;
    this.answers = {};
    this.picks = {};
  }

  private answersOf(tree: string): Answers {
    const answers = entry(this.answers, tree);
    if (answers) return answers;
    return (this.answers[tree] = {});
  }
}
