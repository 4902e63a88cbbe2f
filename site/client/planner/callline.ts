// The line to call, as soon as a sign is ticked that cannot wait. It is fixed at
// the foot of the window; where the window is low it stands under the ticked row.

import { templateOfTold } from "../state/data";
import { act, clone, slot } from "../page/dom";
import { GRAVITY, Said, Table, When, whenOf } from "../safety/safety";

export function isEmergency(when: When | undefined): boolean {
  return when === "now" || when === "crisis";
}

/** Those that cannot wait, the gravest first. */
export function emergencies(table: Table, told: Said[]): Said[] {
  const of = (when: When): Said[] => told.filter((s) => whenOf(table, s) === when);
  return GRAVITY.filter(isEmergency).reduce((all: Said[], when) => all.concat(of(when)), []);
}

/** A short name of something told, as its caution is headed. */
export function nameOf(said: Said): string {
  return slot(clone(templateOfTold(said)), "name").textContent as string;
}

export class CallLine {
  private readonly line = clone("part-call-line");

  constructor(
    private readonly table: Table,
    now: () => void,
  ) {
    act(this.line, "what-now", now);
  }

  /** Shows the line in a place, for what was told; takes it away where nothing of it is an emergency. */
  show(place: HTMLElement, told: Said[]): void {
    const grave = emergencies(this.table, told);
    const first = grave[0];
    document.documentElement.classList.toggle("calling", !!first);
    if (!first) return this.line.remove();
    slot(this.line, "what").textContent = nameOf(first);
    slot(this.line, "crisis").hidden = !grave.some((s) => whenOf(this.table, s) === "crisis");
    place.appendChild(this.line);
  }

  /** What it says, for those who do not see it. */
  words(): string {
    return Array.from(this.line.querySelectorAll<HTMLElement>("p:not([hidden])")).map((p) => (p.textContent as string).replace(/\s+/g, " ").trim()).join(" ");
  }
}
