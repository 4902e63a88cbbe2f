// The safety screen on the page: the leg, the gate, and the groups of signs, one
// a screen. None and "not sure" answer in one tap; what is ticked waits for "Go on".

import { App } from "../state/app";
import { CallLine, emergencies } from "./callline";
import { act, clone, fill, inputs, slot, submit, ticked, unseen } from "../page/dom";
import { after, before } from "../state/guard";
import { Group, NONE, Said, Step, UNSURE, asked, gather, opened, signsOf } from "../safety/safety";
import { Screen } from "../state/screens";
import * as words from "../words/words";

export function legView(app: App, screen: Screen): HTMLElement {
  const view = clone("safety-leg");
  const sitting = app.state.sitting;
  for (const button of Array.from(view.querySelectorAll<HTMLElement>("[data-leg]"))) {
    const leg = button.getAttribute("data-leg") as string;
    if (leg === sitting.told.leg) button.appendChild(unseen(words.yourAnswer()));
    button.classList.toggle("mine", leg === sitting.told.leg);
    button.addEventListener("click", () => {
      sitting.answerLeg(leg);
      app.go(after(app.state, screen));
    });
  }
  tieBack(app, view, screen);
  return view;
}

export function gateView(app: App, screen: Screen): HTMLElement {
  const view = clone("safety-gate");
  const { table, told } = app.state.sitting;
  const lines = asked(table, told).map((g) => g.id);
  keepRows(view, lines);
  tick(view, lines.filter((id) => (told.gate || []).indexOf(id) >= 0 || app.state.toldIn(id).some((sign) => sign !== NONE)));
  tieAnswers(app, view, (ids) => {
    app.state.sitting.answerGate(ids);
    app.go(after(app.state, screen));
  }, () => [UNSURE]);
  tieBack(app, view, screen);
  return view;
}

export function groupView(app: App, screen: Screen): HTMLElement {
  const id = (screen.step as Step).group as string;
  const view = clone(`signs-${id}`);
  const sitting = app.state.sitting;
  const group = asked(sitting.table, sitting.told).filter((g) => g.id === id)[0] as Group;
  keepRows(view, signsOf(group, sitting.told).map((s) => s.id));
  tick(view, app.state.toldIn(id));
  const answer = (ids: string[]): void => app.state.tell(id, ids);
  tieAnswers(app, view, (ids) => {
    answer(ids);
    app.go(after(app.state, screen));
  }, () => ticked(view).concat(UNSURE));
  tieCall(app, view, id, () => {
    answer(ticked(view));
    app.go({ ...screen, step: { ask: "help" } });
  });
  fill(view, "next", words.nextGroups(following(app, screen, id).map((g) => titleOf(g.id))));
  tieBack(app, view, screen);
  return view;
}

function following(app: App, screen: Screen, id: string): Group[] {
  const sitting = app.state.sitting;
  const all = opened(sitting.table, sitting.told, !!screen.whole || sitting.all());
  return all.slice(all.findIndex((g) => g.id === id) + 1);
}

function titleOf(group: string): string {
  return clone(`signs-${group}`).getAttribute("data-title") as string;
}

/** Rows that this reader is not asked are taken out. */
function keepRows(view: HTMLElement, ids: string[]): void {
  for (const input of inputs(view)) if (ids.indexOf(input.value) < 0) rowOf(input).remove();
}

function rowOf(input: HTMLElement): HTMLElement {
  return input.closest("li") as HTMLElement;
}

function tick(view: HTMLElement, ids: string[]): void {
  for (const input of inputs(view)) input.checked = ids.indexOf(input.value) >= 0;
}

/** "Go on" is there once something is ticked, and "None of these" while nothing is. */
function tieAnswers(app: App, view: HTMLElement, leave: (ids: string[]) => void, unsure: () => string[]): void {
  const none = act(view, "none", () => leave([NONE]));
  act(view, "unsure", () => leave(unsure()));
  const on = view.querySelector<HTMLElement>('button[type="submit"]') as HTMLElement;
  const show = (): void => {
    on.hidden = !ticked(view).length;
    none.hidden = !on.hidden;
  };
  view.addEventListener("change", show);
  submit(view, () => {
    if (ticked(view).length) leave(ticked(view));
    else app.say(words.noSign);
  });
  show();
}

/** A sign that cannot wait shows whom to call at the first tick, and is told aloud once. */
function tieCall(app: App, view: HTMLElement, group: string, now: () => void): void {
  const sitting = app.state.sitting;
  const line = new CallLine(sitting.table, now);
  const earlier = gather(sitting.table, sitting.told).said.filter((s) => s.group !== group);
  let said = emergencies(sitting.table, earlier).length > 0;
  const here = (): Said[] => ticked(view).map((sign) => ({ group, sign }));
  view.addEventListener("change", (event) => {
    show(rowOf(event.target as HTMLElement));
    if (!said && emergencies(sitting.table, here()).length) {
      said = true;
      app.say(line.words());
    }
  });
  const show = (row: HTMLElement): void => line.show(placeOf(view, row, emergencies(sitting.table, here())), here().concat(earlier));
  show(slot(view, "call"));
}

/** The ticked row, where it is one that cannot wait; else that of another such sign; else above the rows. */
function placeOf(view: HTMLElement, row: HTMLElement, grave: Said[]): HTMLElement {
  const rows = inputs(view).filter((i) => grave.some((s) => s.sign === i.value)).map(rowOf);
  return rows.indexOf(row) >= 0 ? row : rows[0] || slot(view, "call");
}

function tieBack(app: App, view: HTMLElement, screen: Screen): void {
  act(view, "back", () => app.back(before(app.state, screen)));
}

