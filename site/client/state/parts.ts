// The planner's parts: scripts of the site's own that are loaded as a reader goes on. Each calls
// keelpathPart with its name and what it brings. Whether it came is told by that call and not
// by the browser: a script with a fault loads without one.

import { hasStyle, loadScript, loadStyle } from "../page/load";
import { Part } from "../types/publish";

/** A part, with the style that it is shown in. */
export interface Wanted {
  name: string;
  script: string;
  style?: string;
}

export class Parts {
  /** What came, in that order, by name. */
  readonly came: { [name: string]: Part } = {};
  private readonly coming: { [name: string]: Promise<void> } = {};

  constructor(take: (part: Part) => void) {
    (window as { keelpathPart?: (name: string, part: Part) => void }).keelpathPart = (name, part) => {
      if (this.came[name]) return; // a script that is added twice runs twice
      take(part);
      this.came[name] = part;
    };
  }

  /** Those that are not all there yet. */
  lacking(all: Wanted[]): Wanted[] {
    return all.filter((w) => !this.came[w.name] || (w.style && !hasStyle(w.style)));
  }

  /** Loads what is lacking; fails where one of it cannot be loaded, once the others are there. */
  load(all: Wanted[]): Promise<void> {
    const each = this.lacking(all).map((w) => this.one(w).then(() => "", () => w.name));
    return Promise.all(each).then((failed) => {
      const names = failed.filter((name) => name);
      if (names.length) throw new Error(names.join(", "));
    });
  }

  private one(w: Wanted): Promise<void> {
    const known = this.coming[w.name];
    if (known) return known;
    const over = (): void => {
      delete this.coming[w.name];
    };
    const script = this.came[w.name] ? Promise.resolve() : loadScript(w.script);
    const style = w.style && !hasStyle(w.style) ? loadStyle(w.style) : undefined;
    const coming = Promise.all([script, style]).then(() => {
      if (!this.came[w.name]) throw new Error(`${w.script} brought nothing`);
    });
    this.coming[w.name] = coming;
    coming.then(over, over);
    return coming;
  }
}
