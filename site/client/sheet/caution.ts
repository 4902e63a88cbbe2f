// Cautions: the words that stand above everything else.

import { App } from "../state/app";
import { templateOfTold } from "../state/data";
import { clone, fill, slot } from "../page/dom";
import { WORN } from "../safety/safety";
import { State } from "../state/state";
import { fillAmounts } from "../tree/said";
import { templateOfEnding } from "../tree/tree";
import * as words from "../words/words";

export interface Cautions {
  /** Those of what was told on the safety screen, the gravest first, and of safety endings; they open the sheet. */
  grave: HTMLElement[];
  other: HTMLElement[];
}

/** Fresh copies of the cautions of all endings reached, each wording once. */
export function cautions(app: App): Cautions {
  const out: Cautions = { grave: toldParts(app.state), other: [] };
  for (const part of out.grave) for (const because of Array.from(part.querySelectorAll(".because"))) because.remove();
  const said: string[] = [];
  for (const reached of app.state.endings()) {
    if (app.state.signOfEnding(reached.id)) continue; // it is told with the others
    const caution = clone(templateOfEnding(reached.tree, reached.id)).querySelector<HTMLElement>('[data-slot="caution"]');
    if (caution) fillAmounts(caution, app.state.tree(reached.tree), app.state.path(reached.tree), app.state.data.units);
    const text = caution ? (caution.textContent as string) : "";
    if (!caution || said.indexOf(text) >= 0) continue;
    said.push(text);
    (reached.ending.safety ? out.grave : out.other).push(caution);
  }
  return out;
}

/** Adds the edition's sentence for an emergency, with the clinic's phone where it has one. */
export function addEmergency(app: App, place: HTMLElement): void {
  const edition = app.state.data.edition;
  const part = clone("part-emergency");
  fill(part, "phone", edition.phone);
  slot(part, "call").hidden = !edition.phone;
  place.appendChild(part);
  place.hidden = false;
}

/** Every caution of what was told, each under its name. */
export function toldParts(state: State): HTMLElement[] {
  const { said } = state.gathered();
  return said.map((one, n) => {
    const part = clone(templateOfTold(one));
    keepWorn(state, part);
    fill(part, "count", words.caution(n + 1, said.length));
    return part;
  });
}

/** What is said of a leg that is worn is said to nobody else. */
export function keepWorn(state: State, root: HTMLElement): void {
  if (state.sitting.told.leg === WORN) return;
  for (const part of Array.from(root.querySelectorAll("[data-worn]"))) part.remove();
}
