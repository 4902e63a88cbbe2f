// A second tap that came too soon. Whoever taps twice by habit, or whose hand
// trembles, must not answer a question that they have not seen yet. So a tap
// within half a second of a change of screen does nothing. A key can do no such
// harm: the focus has gone to the new screen's heading, where keys press nothing.

const TOO_SOON = 500;

export class Taps {
  private changed = -TOO_SOON;
  private down = -TOO_SOON;

  constructor(root: HTMLElement) {
    root.addEventListener("pointerdown", () => (this.down = performance.now()), true);
    root.addEventListener("click", (event) => this.weigh(event), true);
  }

  /** Another screen has taken the place of the one that was there. */
  screenChanged(): void {
    this.changed = performance.now();
  }

  private weigh(event: MouseEvent): void {
    if (!event.isTrusted || event.detail === 0) return; // a key, or help software that names what it presses
    // A press that began on the screen before counts from its end.
    const at = this.down > this.changed ? this.down : performance.now();
    if (at - this.changed >= TOO_SOON) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  }
}
