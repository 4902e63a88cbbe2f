// A prompt as the planner shows it, at an ending and on the sheet.

import { App } from "../state/app";
import { clone, fill, slot } from "../page/dom";
import { DataPrompt } from "../types/publish";
import { entry } from "../walk/walker";
import * as words from "../words/words";

function promptOf(app: App, id: string): Partial<DataPrompt> {
  return entry(app.state.data.prompts, id) || { ask: "" };
}

/** The question to bring, why, and whom to ask; the buttons are the caller's. */
export function promptItem(app: App, id: string, part: string): HTMLElement {
  const prompt = promptOf(app, id);
  const li = clone(part);
  fill(li, "ask", app.state.ask(id));
  fill(li, "why", prompt.why);
  keepWhom(slot(li, "whom"), prompt.whom || []);
  return li;
}

/** The template names everybody a prompt can be for; the others are taken out. */
function keepWhom(place: HTMLElement, whom: string[]): void {
  for (const name of Array.from(place.querySelectorAll<HTMLElement>("[data-whom]"))) {
    if (whom.indexOf(name.getAttribute("data-whom") as string) < 0) name.remove();
  }
  place.hidden = !whom.length;
}

/** A prompt with a tick box that says whether it is on the sheet, by what came up. */
export function pickItem(app: App, id: string, up?: string[]): HTMLElement {
  const li = promptItem(app, id, "part-pick");
  const box = li.querySelector("input") as HTMLInputElement;
  box.id = `pick-${id}`;
  box.checked = app.state.isOn(id, up);
  box.addEventListener("change", () => {
    app.state.pick(id, box.checked);
    const ask = app.state.ask(id);
    app.say(box.checked ? words.added(ask) : words.takenOff(ask));
  });
  return li;
}
