// Scripts of the site's own that the page loads only when a reader asks for what
// they do: each leaves one name on the window. An element of the page names where it is.

import { App } from "../state/app";
import { Asides } from "./asides";
import { Carry } from "../carry/carry";
import { Ground } from "./ground";
import { runFigure } from "../figures/figure";
import { loadScript } from "../page/load";
import { Wanted } from "../state/parts";
import * as words from "../words/words";

export interface Needs {
  keelpathAsides: Asides;
  keelpathCarry: Carry;
  keelpathFigure: typeof runFigure;
  keelpathGround: Ground;
}

const PLACES = { keelpathAsides: "asides", keelpathCarry: "carry", keelpathFigure: "figures", keelpathGround: "ground" } as const;

export function need<K extends keyof Needs>(name: K): Promise<Needs[K]> {
  const own = window as unknown as Partial<Needs>;
  const there = own[name];
  if (there) return Promise.resolve(there as Needs[K]);
  return loadScript(addressOf(PLACES[name])).then(() => {
    if (own[name]) return own[name] as Needs[K];
    throw new Error(name);
  });
}

/** Does something with what is loaded for it, or says that it could not be loaded. */
export function ask<K extends keyof Needs>(app: App, name: K, then: (needed: Needs[K]) => void): void {
  need(name).then(then).catch(() => app.say(words.notLoaded, true));
}

/** A part that is said in the voice at hand. */
function spoken(name: "about" | "prompts"): Wanted {
  return { name: name + addressOf("voice"), script: addressOf(name) };
}

/** The part that has all prompts. */
export function allPrompts(): Wanted {
  return spoken("prompts");
}

/** What the sheet is made of. */
export function sheets(): Wanted[] {
  return [{ name: "sheets", script: addressOf("sheets"), style: addressOf("sheet-style") }, spoken("about"), allPrompts()];
}

/** Where the page says that a script or a style is. */
export function addressOf(what: "asides" | "voice" | "carry" | "figures" | "figure-style" | "sheets" | "sheet-style" | "ground" | "about" | "prompts"): string {
  return (document.querySelector(`[data-${what}]`) as Element).getAttribute(`data-${what}`) as string;
}
