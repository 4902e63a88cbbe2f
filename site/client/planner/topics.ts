// The first screen: which topic to take. One tap begins one; several can be lined up.

import { App } from "../state/app";
import { clone, fill, slot, submit, ticked } from "../page/dom";
import { tieOpen } from "./share";
import { showProblem } from "../page/problem";
import * as words from "../words/words";

export function topicsView(app: App): HTMLElement {
  const view = clone("view-topics");
  for (const row of Array.from(view.querySelectorAll<HTMLButtonElement>("[data-topic]"))) {
    row.setAttribute("data-ground", `topic-${row.value}`);
    fill(row, "standing", standingOf(app, row.value));
    row.addEventListener("click", () => app.take(row.value));
  }
  for (const button of Array.from(view.querySelectorAll<HTMLButtonElement>(".for button"))) {
    button.setAttribute("aria-pressed", String(button.value === app.state.voice));
    button.addEventListener("click", () => app.go({ view: "topics", voice: button.value }, () => document.querySelector<HTMLElement>('[aria-pressed="true"]')?.focus()));
  }
  lineUp(app, view);
  tieOpen(app, view);
  return view;
}

function standingOf(app: App, tree: string): string {
  if (app.state.kept.taken.indexOf(tree) < 0) return "";
  return app.state.path(tree).ending ? words.done : words.begun;
}

function lineUp(app: App, view: HTMLElement): void {
  for (const topic of app.state.data.topics) {
    const row = clone("part-row");
    const box = row.querySelector("input") as HTMLInputElement;
    box.value = topic.id;
    box.checked = app.state.kept.waiting.indexOf(topic.id) >= 0;
    (row.querySelector(".says") as Element).textContent = topic.title;
    slot(view, "several").appendChild(row);
  }
  submit(view.querySelector("form") as Element, () => {
    const chosen = ticked(view);
    if (!chosen.length) return showProblem(view, words.noTopic);
    app.state.kept.waiting = chosen;
    app.take(chosen[0] as string);
  });
}
