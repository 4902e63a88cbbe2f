// A sitting: what the reader told on the safety screen, for twelve hours at
// most and in this tab alone. It is kept apart from the sheet, so that nothing
// that is saved, copied or sent along can hold it.

import { entry } from "../sums/own";
import { Answers, NONE, Step, Table, UNSURE, asked, gather, next, opened, signOf, signsOf, toldOf } from "./safety";
import { addOnce } from "../walk/walker";

/** After this long it is asked again: a day can bring a new sign. */
const LONGEST = 12 * 60 * 60 * 1000;

export class Sitting {
  told: Answers = {};
  /** When the first answer was given, by the clock; 0 before it. */
  private since = 0;
  /** What was told when the reader went on from its ending. */
  private past = "";

  constructor(readonly table: Table) {}

  isEmpty(): boolean {
    return !this.since;
  }

  clear(): void {
    this.told = {};
    this.since = 0;
    this.past = "";
  }

  /** Ends a sitting that is too old, or from a time that is yet to come. Tells whether it did. */
  expire(): boolean {
    const age = Date.now() - this.since;
    if (!this.since || (age >= 0 && age < LONGEST)) return false;
    this.clear();
    return true;
  }

  /** What comes next on the way to a topic: nothing is left to ask once every group has an answer. */
  next(whole: boolean): Step {
    return next(this.table, this.told, whole || this.all());
  }

  /** Whether the screen lets the reader through to a topic. */
  passes(whole: boolean): boolean {
    this.expire();
    const { ask } = this.next(whole);
    return ask === "done" || (ask === "help" && this.past === this.mark());
  }

  /** The reader has seen the ending of all that is told so far and goes on. */
  goOn(): void {
    this.past = this.mark();
  }

  /** Every group that is asked has its answer. */
  all(): boolean {
    return !!this.told.leg && asked(this.table, this.told).every((g) => toldOf(this.told, g.id).length);
  }

  answerLeg(leg: string): void {
    this.begin();
    if (leg === this.told.leg) return;
    const before = this.told;
    this.told = { leg, groups: {} };
    // Other signs are asked now, so only what was ticked and is still asked stays answered.
    for (const g of asked(this.table, this.told)) {
      const kept = signsOf(g, this.told).map((s) => s.id).concat(UNSURE).filter((id) => toldOf(before, g.id).indexOf(id) >= 0);
      if (kept.length) this.set(g.id, kept);
    }
  }

  /** A group whose line is no longer ticked is taken back whole. */
  answerGate(gate: string[]): void {
    this.begin();
    this.told.gate = gate;
    const open = opened(this.table, this.told, false).map((g) => g.id);
    for (const id of Object.keys(this.told.groups || {})) {
      if (open.indexOf(id) < 0) delete (this.told.groups as { [group: string]: string[] })[id];
    }
  }

  answerGroup(group: string, told: string[]): void {
    this.begin();
    this.set(group, told);
    const gate = this.told.gate || [];
    if (gate.length && gate.indexOf(UNSURE) < 0 && gate.indexOf(group) < 0) this.told.gate = gate.filter((id) => id !== NONE).concat(group);
  }

  /** The told facts that follow from it. */
  facts(): string[] {
    const facts: string[] = [];
    addOnce(facts, (this.told.leg && entry(this.table.leg, this.told.leg)) || []);
    for (const said of gather(this.table, this.told).said) {
      const found = signOf(this.table, said.sign);
      addOnce(facts, (found && found.sign.tells) || []);
    }
    return facts;
  }

  private set(group: string, told: string[]): void {
    this.told.groups = { ...this.told.groups, [group]: told };
  }

  private begin(): void {
    this.expire();
    if (!this.since) this.since = Date.now();
  }

  private mark(): string {
    return JSON.stringify(gather(this.table, this.told).said);
  }

  /** A text for this tab's own store. */
  write(): string {
    return JSON.stringify({ told: this.told, since: this.since, past: this.past });
  }

  /** Takes such a text up again; what it cannot be leaves the screen to be asked anew. */
  read(text: string): void {
    try {
      const from = JSON.parse(text) as Sitting;
      if (!sound(this.table, from.told) || typeof from.since !== "number") return;
      this.told = from.told;
      this.since = from.since;
      this.past = String(from.past);
      this.expire();
    } catch {
      // It was not written here.
    }
  }
}

/** Whether these answers are ones that the screen takes. */
function sound(table: Table, a: Answers): boolean {
  const groups = asked(table, a);
  const lines = groups.map((g) => g.id).concat(NONE, UNSURE);
  const told = a.groups || {};
  return (
    (a.leg === undefined || entry(table.leg, a.leg) !== undefined) &&
    (a.gate || []).every((id) => lines.indexOf(id) >= 0) &&
    Object.keys(told).every((id) => {
      const g = groups.filter((one) => one.id === id)[0];
      const ids = g ? signsOf(g, a).map((s) => s.id).concat(NONE, UNSURE) : [];
      return toldOf(a, id).every((sign) => ids.indexOf(sign) >= 0);
    })
  );
}
