// Each screen of the planner can be read aloud: its button stands beside the one that goes back. What a screen was read of is
// gone with it, so a new screen ends the reading.

import { button, stopReading, whenVoiced } from "../aloud/aloud";

/** Offers it on the screen that is shown, and on each that comes. */
export function offerReading(view: HTMLElement): void {
  whenVoiced(() => {
    offer(view);
    new MutationObserver(() => {
      stopReading();
      offer(view);
    }).observe(view, { childList: true });
  });
}

function offer(view: HTMLElement): void {
  const lines = view.querySelectorAll(".line");
  const last = lines[lines.length - 1];
  if (last && !last.querySelector(".aloud")) last.appendChild(button(view));
}
