// The first screen: which trees to take.

import { App } from "../state/app";
import { act, clone, fill, inputs, submit, ticked } from "../page/dom";
import { tieOpen } from "./share";
import { showProblem } from "../page/problem";
import * as words from "../words/words";

export function topicsView(app: App): HTMLElement {
  const view = clone("view-topics");
  for (const input of inputs(view)) {
    input.checked = app.state.kept.waiting.indexOf(input.value) >= 0;
    fill(input.parentElement as HTMLElement, "standing", standingOf(app, input.value));
  }
  if (view.querySelector('[data-act="urgent"]')) {
    act(view, "urgent", (button) => app.take(button.getAttribute("data-tree") as string));
  }
  submit(view, () => start(app, view));
  tieOpen(app, view);
  return view;
}

function standingOf(app: App, tree: string): string {
  if (app.state.kept.taken.indexOf(tree) < 0) return "";
  return app.state.path(tree).ending ? words.done : words.begun;
}

function start(app: App, view: HTMLElement): void {
  const chosen = ticked(view);
  if (!chosen.length) return showProblem(view, words.noTopic);
  app.state.kept.waiting = chosen;
  app.take(chosen[0] as string);
}
