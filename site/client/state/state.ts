// What the reader has said so far, and what follows from it.

import { Answers, Path, TableMeasure, addOnce, amount, entry, walk } from "../walk/walker";
import { Data, signOfEnding } from "./data";
import { Kept, MOST_OWN, MOST_STARS, holdsNothing, nothing } from "./kept";
import { Gathered, NONE, Said, gather, promptsOf, toldOf } from "../safety/safety";
import { alone, refused, show } from "../sums/quantity";
import { Sitting } from "../safety/sitting";
import { Ending, Tree } from "../tree/tree";
import * as told from "../walk/told";

/** The fact that the sheet asks for in the reader's own words. */
const DAY = "day";

export class State {
  kept: Kept = nothing();
  /** The sheet that another one took the place of. */
  earlier: Kept | undefined;
  readonly sitting: Sitting;
  /** The voice in which the page speaks; empty for the reader's own. What is kept may name another one, until its words have come. */
  voice = "";
  /** Questions of the reader's own whose changed numbers were said. */
  noticed: string[] = [];
  /** Questions that told something where the reader was asked; see told.ts. */
  private asked: string[] = [];
  private settled: Kept | undefined;
  private known: { of: string; told: told.Told } = { of: "", told: {} };

  constructor(readonly data: Data) {
    this.sitting = new Sitting(data.safety);
  }

  /** All that was told of what needs help, on the safety screen or in a topic. */
  gathered(): Gathered {
    const groups: { [group: string]: string[] } = {};
    for (const g of this.data.safety.groups) groups[g.id] = this.toldIn(g.id);
    return gather(this.data.safety, { groups });
  }

  /** What was told in a group. */
  toldIn(group: string): string[] {
    const told = toldOf(this.sitting.told, group).slice();
    addOnce(told, this.signsOfTopics().filter((s) => s.group === group).map((s) => s.sign));
    return told.length > 1 ? told.filter((sign) => sign !== NONE) : told;
  }

  /** Answers a group; a sign that an answer of a topic told and that is ticked no longer takes that answer back. */
  tell(group: string, told: string[]): void {
    for (const s of this.signsOfTopics()) {
      if (s.group === group && told.indexOf(s.sign) < 0) delete (this.kept.answers[s.tree] as Answers)[s.question];
    }
    this.sitting.answerGroup(group, told);
  }

  /** The sign that a topic's ending stands for. */
  signOfEnding(ending: string): Said | undefined {
    return signOfEnding(this.data.safety, ending);
  }

  private signsOfTopics(): (Said & { tree: string; question: string })[] {
    const out: (Said & { tree: string; question: string })[] = [];
    for (const tree of this.kept.taken) {
      for (const step of this.path(tree).steps) {
        for (const sign of this.signsOf(tree, step.question, step.chosen)) out.push({ ...sign, tree, question: step.question });
      }
    }
    return out;
  }

  /** The signs that an answer tells. */
  signsOf(tree: string, question: string, chosen: string[]): Said[] {
    const row = entry(this.tree(tree).questions, question);
    const ways = ((row && row.answers) || []).filter((a) => chosen.indexOf(a.id) >= 0).map((a) => a.go || "");
    return ways.map((way) => this.signOfEnding(way)).filter((s): s is Said => !!s);
  }

  /** Takes up a sheet that was saved; the one at hand is put aside, and the safety screen is asked again. */
  open(kept: Kept): void {
    if (!holdsNothing(this.kept)) this.earlier = this.kept;
    this.kept = kept;
    this.sitting.clear();
  }

  tree(id: string): Tree {
    for (const t of this.data.trees) if (t.id === id) return t;
    throw new Error(`no tree "${id}"`);
  }

  /** Whether a topic was taken to an ending. */
  isDone(id: string): boolean {
    return this.data.trees.some((t) => t.id === id) && !!this.path(id).ending;
  }

  /** Topics to take one after the other, before those that wait already. */
  lineUp(topics: string[]): void {
    this.kept.waiting = topics.concat(this.kept.waiting.filter((id) => topics.indexOf(id) < 0));
  }

  /** Marks a tree as begun and takes it off the waiting ones. */
  begin(tree: string): void {
    told.begin(this.said(), tree);
    this.kept.waiting = without(this.kept.waiting, tree);
  }

  chosen(tree: string, question: string): string[] {
    return entry(this.answersOf(tree), question) || [];
  }

  /** Notes an answer, here and in the other topics that ask for what it tells. */
  answer(tree: string, question: string, chosen: string[]): void {
    told.answer(this.said(), tree, question, chosen);
  }

  /** What the reader has said, settled once where it came from elsewhere. */
  private said(): told.Sitting {
    const { taken, answers } = this.kept;
    if (this.settled !== this.kept) this.asked = [];
    const said = { trees: this.data.trees, facts: this.data.facts, taken, answers, asked: this.asked, units: this.data.units };
    if (this.settled !== this.kept) {
      this.settled = this.kept;
      told.settle(said);
    }
    return said;
  }

  /** The facts told in topics, with their amounts. */
  told(): told.Told {
    const said = this.said();
    const of = JSON.stringify([said.taken, said.answers, said.asked]);
    if (this.known.of !== of) this.known = { of, told: told.told(said) };
    return this.known.told;
  }

  isTold(fact: string, told = this.told()): boolean {
    return fact === this.data.tells || !!entry(told, fact) || this.sitting.facts().indexOf(fact) >= 0 || (fact === DAY && !!this.kept.day);
  }

  /** What was told, in words that a question can show; empty where it was not. */
  wordsOf(fact: string, words = show): string {
    if (fact === DAY) return this.kept.day.replace(/[\s.!?]+$/, "").replace(/\s+/g, " ");
    const at = entry(this.told(), fact);
    const row = at && entry(this.tree(at.tree).questions, at.question);
    if (!at || !row || !row.measure || !this.data.units) return "";
    const v = amount(row.measure as TableMeasure, at.words, this.data.units);
    return refused(v) ? "" : words(this.data.units, v, row.measure);
  }

  /** Whether what is answered at a question was told in another topic. */
  toldBefore(tree: string, question: string): boolean {
    return told.before(this.said(), tree, question);
  }

  /** The answers to tick where a question comes: those given, or what was told elsewhere. */
  ticked(tree: string, question: string): string[] {
    const chosen = this.chosen(tree, question);
    const row = entry(this.tree(tree).questions, question);
    return chosen.length || !row ? chosen : told.ticks(row, (f) => this.isTold(f));
  }

  /** Whether a prompt fits what the reader told. */
  private fits(prompt: string, told: told.Told): boolean {
    const p = entry(this.data.prompts, prompt);
    return !!p && (p.presumes || []).every((f) => this.isTold(f, told)) && !this.isNeedless(prompt, told);
  }

  /** Whether something was told that makes a prompt needless. */
  private isNeedless(prompt: string, told?: told.Told): boolean {
    const p = entry(this.data.prompts, prompt);
    return ((p && p.unless) || []).some((f) => this.isTold(f, told));
  }

  /** The prompts that fit. */
  fitting(prompts: string[]): string[] {
    const told = this.told();
    return prompts.filter((id) => this.fits(id, told));
  }

  path(tree: string): Path {
    return walk(this.tree(tree), this.answersOf(tree), this.data.units);
  }

  /** The endings reached, grave ones first, else in the order of the trees taken. */
  endings(): { tree: string; id: string; ending: Ending }[] {
    const reached = [];
    for (const tree of this.kept.taken) {
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
    for (const tree of this.kept.taken) addOnce(cards, this.path(tree).cards);
    return cards;
  }

  /** Prompts that the endings and cards bring, general ones not among them. */
  cameUp(): string[] {
    const prompts: string[] = [];
    for (const r of this.endings()) if (!this.signOfEnding(r.id)) addOnce(prompts, r.ending.prompts || []);
    addOnce(prompts, this.cardPrompts(""));
    addOnce(prompts, this.forLater());
    return this.fitting(prompts);
  }

  /** Prompts of what was told on the safety screen. An emergency leaves none on the sheet: first comes help. */
  forLater(): string[] {
    const { when, said } = this.gathered();
    return when === "now" || when === "crisis" ? [] : promptsOf(this.data.safety, said);
  }

  cardPrompts(first: string): string[] {
    const prompts: string[] = [];
    for (const id of this.cards(first)) addOnce(prompts, entry(this.data.cards, id) || []);
    return this.fitting(prompts);
  }

  /** Prompts on the sheet: as the reader ordered them, then general ones, what came up, what was added. */
  sheet(): string[] {
    const prompts: string[] = [];
    addOnce(prompts, this.kept.order);
    addOnce(prompts, this.data.general);
    const up = this.cameUp();
    addOnce(prompts, up);
    addOnce(prompts, Object.keys(this.kept.picks));
    return prompts.filter((id) => this.isOn(id, up));
  }

  /** Prompts that the reader took off and may put back. */
  takenOff(): string[] {
    return Object.keys(this.kept.picks).filter((id) => !this.isOn(id) && !this.isNeedless(id));
  }

  /** Whoever asks of many prompts works out once what came up, and gives it. */
  isOn(prompt: string, up?: string[]): boolean {
    const pick = entry(this.kept.picks, prompt);
    return pick === undefined ? this.byDefault(prompt, up) : pick && !this.isNeedless(prompt);
  }

  /** Only a choice against the default is kept, so changed answers still count. */
  pick(prompt: string, on: boolean): void {
    if (on === this.byDefault(prompt)) delete this.kept.picks[prompt];
    else this.kept.picks[prompt] = on;
    if (!on) this.unstar(prompt);
  }

  private byDefault(prompt: string, up?: string[]): boolean {
    return this.data.general.indexOf(prompt) >= 0 || (up || this.cameUp()).indexOf(prompt) >= 0;
  }

  /** Starred prompts and own questions. A prompt that no longer comes up lends its star to others. */
  starred(): string[] {
    return this.kept.stars.filter((id) => this.isOwn(id) || this.isOn(id));
  }

  isStarred(id: string): boolean {
    return this.starred().indexOf(id) >= 0;
  }

  /** Stars a prompt or an own question; false if there are enough stars already. */
  star(id: string): boolean {
    this.kept.stars = this.starred();
    if (this.kept.stars.length >= MOST_STARS) return false;
    addOnce(this.kept.stars, [id]);
    return true;
  }

  unstar(id: string): void {
    this.kept.stars = without(this.kept.stars, id);
  }

  /** What a prompt or an own question asks, in the reader's words where there are any. */
  ask(id: string): string {
    const own = this.kept.own.find((o) => o.id === id);
    if (own) return own.ask;
    const prompt = entry(this.data.prompts, id);
    return prompt ? this.filled(prompt.ask, entry(this.kept.reworded, id) || prompt.ask) : "";
  }

  /** Puts what was told into the gaps that a prompt has. */
  filled(gaps: string, ask: string): string {
    for (const fact of told.gaps(gaps)) {
      const words = this.wordsOf(fact) || told.BLANK;
      ask = ask.split(`{${fact}}`).join(words).split(`{${fact} alone}`).join(this.wordsOf(fact, alone) || told.BLANK);
    }
    return ask;
  }

  /** Adds a question of the reader's own; false if there are enough already. Of are the amounts that a figure made it with. */
  addOwn(ask: string, of?: { [question: string]: number }): boolean {
    if (this.kept.own.length >= MOST_OWN) return false;
    let n = 1;
    while (this.isOwn(`own ${n}`)) n++;
    this.kept.own.push({ id: `own ${n}`, ask, ...(of && { of }) }); // the blank keeps it apart from prompt ids
    return true;
  }

  removeOwn(id: string): void {
    this.kept.own = this.kept.own.filter((o) => o.id !== id);
    this.unstar(id);
  }

  private isOwn(id: string): boolean {
    return this.kept.own.some((o) => o.id === id);
  }

  /** Whether there is nothing to clear. */
  isEmpty(): boolean {
    return !this.earlier && JSON.stringify(this.kept) === JSON.stringify(nothing());
  }

  clear(): void {
    this.kept = nothing();
    this.earlier = undefined;
    this.sitting.clear();
  }

  /**
   * What may leave this tab in a saved sheet, a code or a form. Nothing told of
   * what needs help is in it, nor what only follows from that: a prompt that came
   * up there goes along only where the reader did something with it.
   */
  toTake(): Kept {
    const bare = new State(this.data);
    bare.kept = { ...this.kept, answers: this.answersToTake() };
    const picks: Kept["picks"] = {};
    const marks = this.kept.visit;
    const chosen = ([] as string[]).concat(this.starred(), Object.keys(this.kept.reworded), Object.keys(marks.marks), Object.keys(marks.replies));
    for (const id of Object.keys(this.kept.picks).concat(chosen)) {
      const on = this.isOn(id);
      if (entry(this.data.prompts, id) && on !== bare.byDefault(id)) picks[id] = on;
    }
    bare.kept = { ...bare.kept, picks };
    return { ...bare.kept, order: this.kept.order.filter((id) => bare.isOn(id)) };
  }

  private answersToTake(): Kept["answers"] {
    const out: Kept["answers"] = {};
    for (const tree of Object.keys(this.kept.answers)) {
      const answers = { ...this.answersOf(tree) };
      for (const q of Object.keys(answers)) if (this.signsOf(tree, q, answers[q] as string[]).length) delete answers[q];
      out[tree] = answers;
    }
    return out;
  }

  private answersOf(tree: string): Answers {
    return entry(this.kept.answers, tree) || {};
  }
}

function without(ids: string[], id: string): string[] {
  return ids.filter((i) => i !== id);
}
