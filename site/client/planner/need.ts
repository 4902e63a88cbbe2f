// Scripts of the site's own that the page loads only when a reader asks for what
// they do: each leaves one name on the window. An element of the page names where it is.

import { Carry } from "../carry/carry";
import { Ground } from "./ground";
import { runFigure } from "../figures/figure";
import { loadScript } from "../page/load";
import { Wanted } from "../state/parts";

export interface Needs {
  keelpathCarry: Carry;
  keelpathFigure: typeof runFigure;
  keelpathGround: Ground;
}

const PLACES = { keelpathCarry: "carry", keelpathFigure: "figures", keelpathGround: "ground" } as const;

export function need<K extends keyof Needs>(name: K): Promise<Needs[K]> {
  const own = window as unknown as Partial<Needs>;
  const there = own[name];
  if (there) return Promise.resolve(there as Needs[K]);
  return loadScript(addressOf(PLACES[name])).then(() => {
    if (own[name]) return own[name] as Needs[K];
    throw new Error(name);
  });
}

/** The part that has all prompts. */
export function allPrompts(): Wanted {
  return { name: "prompts", script: addressOf("prompts") };
}

/** What the sheet is made of. */
export function sheets(): Wanted[] {
  return [{ name: "sheets", script: addressOf("sheets"), style: addressOf("sheet-style") }, { name: "about", script: addressOf("about") }, allPrompts()];
}

/** Where the page says that a script or a style is. */
export function addressOf(what: "carry" | "figures" | "figure-style" | "sheets" | "sheet-style" | "ground" | "about" | "prompts"): string {
  return (document.querySelector(`[data-${what}]`) as Element).getAttribute(`data-${what}`) as string;
}
