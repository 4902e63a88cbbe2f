// A screen that many readers share, in an edition that says so: it keeps
// nothing, and it clears itself when nobody is there, after asking. A reader may
// stay as long as they like.

import { act, fill, slot } from "../page/dom";
import * as words from "../words/words";

/** Seconds without a touch or a key before it asks, and to answer then. */
const QUIET = 120;
const ASKED = 30;

export class SharedScreen {
  private last = Date.now();

  constructor(
    private readonly root: HTMLElement,
    private readonly leave: () => void,
  ) {
    for (const event of ["pointerdown", "pointermove", "keydown", "wheel"]) document.addEventListener(event, () => this.here(), { passive: true });
    act(root, "stay", () => this.here());
    // A page that the browser kept whole must not bring an earlier reader back.
    window.addEventListener("pageshow", (event) => {
      if (event.persisted) this.leave();
    });
    setInterval(() => this.look(), 1000);
  }

  private here(): void {
    this.last = Date.now();
    slot(this.root, "idle").hidden = true;
  }

  private look(): void {
    const quiet = Math.floor((Date.now() - this.last) / 1000);
    if (quiet < QUIET) return;
    if (quiet >= QUIET + ASKED) return this.leave();
    const place = slot(this.root, "idle");
    const opening = place.hidden;
    place.hidden = false;
    fill(place, "seconds", words.clearsIn(QUIET + ASKED - quiet));
    if (opening) slot(place, "idle-text").focus();
  }
}
