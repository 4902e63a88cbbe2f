// What stands in place of a screen whose files did not load: what was missing, that nothing
// is lost, and the ways on.

import { act, clone, fill, slot } from "../page/dom";
import { App } from "../state/app";
import { topicOf } from "../state/data";
import { Screen } from "../state/screens";
import * as words from "../words/words";

/**
 * The screen is the one that was asked for; none where what the reader said before did not load. Without then goes on
 * with what did, where it can be read at all.
 */
export function missingView(app: App, asked: Screen | undefined, again: () => void, without?: () => void): HTMLElement {
  const view = clone("view-missing");
  const topic = asked && asked.tree ? topicOf(app.state.data, asked.tree) : undefined;
  fill(view, "focus", asked && asked.voice !== undefined ? words.notLoaded : topic ? words.topicNotLoaded(topic.title) : asked ? words.sheetNotLoaded : words.answersNotLoaded);
  const paper = slot(view, "paper") as HTMLAnchorElement;
  if (topic) {
    paper.href = `${topic.id}.html`;
    paper.textContent = topic.title;
  }
  slot(view, "by-hand").hidden = !topic;
  slot(view, "all-questions").hidden = !asked || !!topic;
  slot(view, "left-out").hidden = !without;
  act(view, "again", again);
  act(view, "without", () => without && without()).hidden = !without;
  act(view, "topics", () => app.go({ view: "topics" })).hidden = !asked;
  return view;
}
