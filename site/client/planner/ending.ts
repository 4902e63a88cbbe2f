// Where a tree ends: what came up, and the questions to bring.

import { App } from "../state/app";
import { addEmergency } from "../sheet/caution";
import { act, clone, empty, fill, make, put, slot } from "../page/dom";
import { afterFrame } from "../page/frame";
import { Theme, Topic, topicOf } from "../state/data";
import { allPrompts, ask, need } from "./need";
import { pickItem } from "../sheet/prompts";
import { Screen } from "../state/screens";
import { fillAmounts } from "../tree/said";
import { showTrail } from "../tree/trail";
import { Ending, templateOfEnding } from "../tree/tree";
import { topic } from "./topic";
import { addOnce, entry } from "../walk/walker";
import { Tables } from "../types/quantity";
import * as words from "../words/words";

export function endingView(app: App, screen: Screen): HTMLElement {
  const tree = screen.tree as string;
  const walk = topic(app, screen);
  const path = walk.path();
  const ending = entry(walk.tree.endings, path.ending) as Ending;

  const view = clone("view-ending");
  const body = clone(templateOfEnding(tree, path.ending));
  fill(view, "tree", walk.tree.title);
  fillAmounts(body, walk.tree, path, walk.units);
  slot(view, "ending").appendChild(body);
  describe(body);
  if (ending.own) need("keelpathGround").then((ground) => ground.place(body, walk.tree, path, walk.units as Tables), () => undefined);
  if (ending.safety) addEmergency(app, slot(body, "emergency"));
  put(body, "cards", app.state.cards(tree).filter((id) => entry(app.state.data.cards, id)).map(note));

  // What this reader told comes first: the questions of their cards, then those with their own amounts.
  const prompts = app.state.cardPrompts(tree).slice();
  addOnce(prompts, app.state.fitting(ending.prompts || []));
  slot(body, "bring").hidden = !prompts.length;
  placePrompts(app, view, ending, prompts);

  placeChanges(app, view, tree);
  showTrail(walk, view, path.steps);
  put(view, "onward", onward(app, tree, ending));
  act(view, "sheet", () => app.go({ view: "sheet" })).classList.toggle("main", !view.querySelector('[data-slot="onward"] .main'));
  act(view, "topics", () => app.go({ view: "topics" }));
  act(view, "back", () => walk.back(path.steps));
  return view;
}

/** A note of what was told. Its heading comes right below the ending's. */
function note(card: string): HTMLElement {
  const made = clone(`part-card-${card}`);
  (made.querySelector("h4") as HTMLElement).setAttribute("aria-level", "3");
  return made;
}

/** The focus is on the heading; the caution above it is read behind it, so nobody misses it. */
function describe(body: HTMLElement): void {
  const caution = body.querySelector('[data-slot="caution"]');
  if (!caution) return;
  caution.id = "ending-caution";
  slot(body, "focus").setAttribute("aria-describedby", caution.id);
}

/** What would change this, worked out when a reader first asks. */
function placeChanges(app: App, view: HTMLElement, tree: string): void {
  const show = (lists: HTMLElement[]): void => {
    put(view, "change-list", lists);
    slot(view, "no-change").hidden = lists.length > 0;
  };
  const load = (): void => {
    ask(app, "keelpathCarry", (carry) => show(carry.changeLists(app, tree)));
  };
  slot(view, "changes").addEventListener("toggle", load, { once: true });
}

interface Further {
  theme: Theme;
  rest: string[];
}

/** How many questions stand open at an ending; the rest is folded. */
const OPEN = 3;

/** What to ask is there with the tree. Why, and what else there is to ask, follow where they were not loaded yet. */
function placePrompts(app: App, view: HTMLElement, ending: Ending, prompts: string[]): void {
  const first = prompts.slice(0, OPEN);
  const rest = prompts.slice(OPEN);
  fill(view, "bring-title", words.forSheet(first.length));
  const show = (): void => {
    const up = app.state.cameUp();
    const themes = furtherThemes(app, ending, prompts);
    const place = (name: string, parts: HTMLElement[]): void => {
      empty(slot(view, name));
      put(view, name, parts);
    };
    place("prompts", first.map((id) => bare(pickItem(app, id, up))));
    place("more-prompts", rest.map((id) => pickItem(app, id, up)));
    const count = themes.reduce((sum, theme) => sum + theme.rest.length, rest.length);
    fill(view, "more-count", words.moreQuestions(count));
    slot(view, "more").hidden = !count;
    afterFrame(() => place("further", themes.map((theme) => fold(app, theme, up)))); // it is folded, and nobody waits for it
  };
  show();
  if (app.parts.lacking([allPrompts()]).length) app.parts.load([allPrompts()]).then(show, () => undefined);
}

/** The question alone; why it helps, and whom to ask, stand on the sheet. */
function bare(item: HTMLElement): HTMLElement {
  slot(item, "why").parentElement?.remove();
  return item;
}

/** Prompts of the ending's themes that are not among those shown, folded in by theme. */
function furtherThemes(app: App, ending: Ending, shown: string[]): Further[] {
  const parts: Further[] = [];
  for (const id of ending.themes || []) {
    const theme = app.state.data.themes.find((t) => t.id === id);
    const rest = theme ? app.state.fitting(theme.prompts).filter((p) => shown.indexOf(p) < 0) : [];
    if (theme && rest.length) parts.push({ theme, rest });
  }
  return parts;
}

function fold(app: App, { theme, rest }: Further, up: string[]): HTMLElement {
  const details = make("details");
  const list = make("ul", "", "prompts");
  details.appendChild(make("summary", words.further(theme.title)));
  for (const id of rest) list.appendChild(pickItem(app, id, up));
  details.appendChild(list);
  return details;
}

/** A button for each tree to go on to: those the reader chose, then those the ending names, the ones done left out. */
function onward(app: App, tree: string, ending: Ending): HTMLElement[] {
  const next = app.state.kept.waiting.slice();
  addOnce(next, ending.next || []);
  const urgent = !!ending.safety;
  const topics = next.map((id) => topicOf(app.state.data, id)).filter((t): t is Topic => !!t);
  return topics.filter(({ id }) => id !== tree && !app.state.isDone(id)).map(({ id, title }) => {
    const button = make("button", words.goOn(title), urgent || app.state.kept.waiting[0] === id ? "main" : "");
    button.setAttribute("type", "button");
    button.addEventListener("click", () => app.take(id));
    return button;
  });
}
