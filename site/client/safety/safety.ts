// The shared safety screen: the browser's copy of the rules in builder/safety,
// which is the reference. It knows no page, so a Go test can run it alone and
// compare every answer. Keep the language plain here for that test's sake.

import { Table, TableGroup as Group, TableSign as Sign, When } from "../types/safety";
import { entry } from "../sums/own";
import { addOnce } from "../walk/walker";

export type { Group, Table, When };

/** How grave each is, the gravest first. */
export const GRAVITY: When[] = ["now", "crisis", "today", "soon"];

/** What the reader has told; what is still open is empty, or not there. */
export interface Answers {
  leg?: string;
  gate?: string[];
  groups?: { [group: string]: string[] };
}

/** What comes next. "help" is the gathered ending; "done" is on to the topic. */
export interface Step {
  ask: "leg" | "gate" | "group" | "help" | "done";
  group?: string;
}

/** A sign that was told; UNSURE stands for "not sure" within the group. */
export interface Said {
  group: string;
  sign: string;
}

export interface Gathered {
  /** The gravest; not there where nothing was told. */
  when?: When;
  said: Said[];
}

export const WORN = "worn";
export const NONE = "none";
export const UNSURE = "unsure";

/** The first thing that is not answered; whole leaves out the gate and asks every group. */
export function next(table: Table, a: Answers, whole: boolean): Step {
  if (!a.leg) return { ask: "leg" };
  if (!whole && !(a.gate || []).length) return { ask: "gate" };
  for (const g of opened(table, a, whole)) {
    if (!toldOf(a, g.id).length) return { ask: "group", group: g.id };
  }
  return { ask: gather(table, a).said.length ? "help" : "done" };
}

/** The groups that are asked of this reader. */
export function asked(table: Table, a: Answers): Group[] {
  return table.groups.filter((g) => !g.leg || a.leg === WORN);
}

/** Those of them that the gate opened; all of them without the gate. */
export function opened(table: Table, a: Answers, whole: boolean): Group[] {
  const gate = a.gate || [];
  return asked(table, a).filter((g) => whole || gate.indexOf(g.id) >= 0 || gate.indexOf(UNSURE) >= 0);
}

/** The signs of a group that are asked of this reader. */
export function signsOf(group: Group, a: Answers): Sign[] {
  return group.signs.filter((s) => !s.leg || a.leg === WORN);
}

/** What was told in a group; empty where it was not asked yet. */
export function toldOf(a: Answers, group: string): string[] {
  return entry(a.groups || {}, group) || [];
}

/** Everything that was told, the gravest first, and none of it left out, whatever the answer about the leg. */
export function gather(table: Table, a: Answers): Gathered {
  const said: Said[] = [];
  for (const when of GRAVITY) {
    for (const group of table.groups) {
      const told = toldOf(a, group.id);
      for (const sign of group.signs) {
        if (sign.when === when && told.indexOf(sign.id) >= 0) said.push({ group: group.id, sign: sign.id });
      }
      if (when === "today" && told.indexOf(UNSURE) >= 0) said.push({ group: group.id, sign: UNSURE });
    }
  }
  const first = said[0];
  return first ? { when: whenOf(table, first), said } : { said };
}

/** How soon something told needs help; "not sure" counts as today. */
export function whenOf(table: Table, said: Said): When {
  const found = signOf(table, said.sign);
  return found ? found.sign.when : "today";
}

/** A sign by its id, which is unique over all groups. */
export function signOf(table: Table, id: string): { group: Group; sign: Sign } | undefined {
  for (const group of table.groups) {
    for (const sign of group.signs) if (sign.id === id) return { group, sign };
  }
  return undefined;
}

/** The questions for later of all that was told, each once. */
export function promptsOf(table: Table, said: Said[]): string[] {
  const prompts: string[] = [];
  for (const s of said) {
    const found = signOf(table, s.sign);
    const group = table.groups.filter((g) => g.id === s.group)[0];
    addOnce(prompts, (found ? found.sign.prompts : group && group.prompts) || []);
  }
  return prompts;
}
