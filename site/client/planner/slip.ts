// The slip: the sheet as it grows, in the reader's own words. On a phone it is a line
// at the foot, with what was told last; on a wide screen a strip at the side with all of it.

import { make, slot } from "../page/dom";

export class Slip {
  private shown: string[] = [];
  private last = "";

  constructor(private readonly root: HTMLElement) {}

  /** Shows what stands under About me; nothing where nothing does. */
  show(lines: string[]): void {
    const slip = slot(this.root, "slip");
    const fresh = lines.filter((line) => this.shown.indexOf(line) < 0);
    this.last = fresh[fresh.length - 1] || (lines.indexOf(this.last) >= 0 ? this.last : lines[lines.length - 1] || "");
    this.shown = lines;
    slip.hidden = !lines.length;
    const place = slot(slip, "last");
    place.textContent = "";
    for (const line of lines) place.appendChild(make("span", line, line === this.last ? "last" : ""));
  }
}
