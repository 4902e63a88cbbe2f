// The gathered ending: what to do first, then every caution of what was told,
// the gravest first. None is folded and none is left out.

import { App } from "../state/app";
import { isEmergency } from "./callline";
import { addEmergency, keepWorn, toldParts } from "../sheet/caution";
import { act, clone, fill, put, slot } from "../page/dom";
import { topicOf } from "../state/data";
import { before, changeAnswers } from "../state/guard";
import { pickItem } from "../sheet/prompts";
import { promptsOf } from "../safety/safety";
import { Screen } from "../state/screens";
import { State } from "../state/state";
import * as words from "../words/words";

export function gatheredView(app: App, screen: Screen): HTMLElement {
  const { said, when } = app.state.gathered();
  const view = clone(`safety-ending-${when}`);
  keepWorn(app.state, view);
  fill(view, "count", words.gathered(said.length));
  put(view, "cautions", toldParts(app.state));
  if (!isEmergency(when)) addEmergency(app, slot(view, "emergency"));
  const prompts = promptsOf(app.state.data.safety, said);
  put(view, "prompts", prompts.map((id) => pickItem(app, id)));
  slot(view, "later").hidden = !prompts.length;
  fill(view, "later-count", words.forLater(prompts.length));
  tie(app, view, screen);
  return view;
}

function tie(app: App, view: HTMLElement, screen: Screen): void {
  act(view, "change", () => app.go(changeAnswers(screen.to || { view: "topics" })));
  act(view, "print", () => window.print());
  act(view, "back", () => app.back(backFrom(app.state, screen)));
  const to = screen.to;
  const on = act(view, "onward", () => {
    app.state.sitting.goOn();
    app.go(to || { view: "topics" });
  });
  const topic = to && to.tree && topicOf(app.state.data, to.tree);
  on.textContent = topic ? words.goOn(topic.title) : words.onward;
}

/** An answer of a topic may have told it; then Back leads there. */
function backFrom(state: State, screen: Screen): Screen {
  if (!screen.tree) return before(state, screen);
  const steps = state.path(screen.tree).steps;
  const last = steps[steps.length - 1];
  return last ? { view: "question", tree: screen.tree, question: last.question } : { view: "topics" };
}
