// Cautions: the words that stand above everything else.

import { fillAmounts } from "./amounts";
import { App } from "./app";
import { clone, fill, slot } from "./dom";

export interface Cautions {
  /** Those of safety endings; they open the sheet. */
  grave: HTMLElement[];
  other: HTMLElement[];
}

/** Fresh copies of the cautions of all endings reached, each wording once. */
export function cautions(app: App): Cautions {
  const out: Cautions = { grave: [], other: [] };
  const said: string[] = [];
  for (const reached of app.state.endings()) {
    const caution = clone(`ending-${reached.tree}-${reached.id}`).querySelector<HTMLElement>('[data-slot="caution"]');
    if (caution) fillAmounts(app.state, caution, reached.tree);
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
