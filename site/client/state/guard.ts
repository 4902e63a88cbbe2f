// The way through the safety screen: no topic's question or ending is shown
// before it is done, whichever way a reader comes.

import { topicOf } from "./data";
import { Screen } from "./screens";
import { Step, opened } from "../safety/safety";
import { State } from "./state";

/** The screen itself, or the part of the safety screen that comes before it. */
export function guarded(state: State, screen: Screen): Screen {
  state.sitting.expire();
  if (screen.view === "safety") return isAsked(state, screen) ? screen : guarded(state, after(state, { ...screen, step: { ask: "help" } }));
  if (screen.view !== "topic" && screen.view !== "question" && screen.view !== "ending") return screen;
  const tree = screen.tree as string;
  const whole = isWhole(state, tree);
  if (!state.sitting.passes(whole)) return { view: "safety", step: state.sitting.next(whole), whole, to: screen };
  if (screen.view === "ending" && state.signOfEnding(state.path(tree).ending)) return { view: "safety", step: { ask: "help" }, whole, tree };
  return screen;
}

/** Whether a topic asks every group, without the gate. */
function isWhole(state: State, tree: string): boolean {
  const topic = topicOf(state.data, tree);
  return !!topic && topic.whole;
}

/** The part that follows the one at hand: the next in order, answered or not, so that Back and forth shows all. */
export function after(state: State, screen: Screen): Screen {
  const at = screen.step as Step;
  const sitting = state.sitting;
  const whole = !!screen.whole || sitting.all();
  const part = (step: Step): Screen => ({ ...screen, view: "safety", step });
  if (at.ask === "leg" && !whole) return part({ ask: "gate" });
  const groups = opened(sitting.table, sitting.told, whole);
  const next = at.ask === "help" ? undefined : groups[at.ask === "group" ? groups.findIndex((g) => g.id === at.group) + 1 : 0];
  if (next) return part({ ask: "group", group: next.id });
  const step = sitting.next(whole);
  return step.ask === "done" || (!screen.again && sitting.passes(whole)) ? screen.to || { view: "topics" } : part(step);
}

/** The part before the one at hand; the screen's first part has the topics before it. */
export function before(state: State, screen: Screen): Screen {
  const at = screen.step as Step;
  const sitting = state.sitting;
  const part = (step: Step): Screen => ({ ...screen, step });
  const gated = !screen.whole && !!(sitting.told.gate || []).length;
  if (at.ask === "leg") return screen.again && screen.to ? screen.to : { view: "topics" };
  if (at.ask === "gate") return part({ ask: "leg" });
  const groups = opened(sitting.table, sitting.told, !gated);
  const group = groups[(at.ask === "group" ? groups.findIndex((g) => g.id === at.group) : groups.length) - 1];
  if (group) return part({ ask: "group", group: group.id });
  return part({ ask: gated ? "gate" : "leg" });
}

/** A part in the browser's history may be one that is no longer asked. */
function isAsked(state: State, screen: Screen): boolean {
  const { ask, group } = screen.step as Step;
  const sitting = state.sitting;
  if (ask === "leg") return true;
  if (ask === "help") return state.gathered().said.length > 0;
  return !!sitting.told.leg && (ask === "gate" || opened(sitting.table, sitting.told, true).some((g) => g.id === group));
}

/** Every group again, for a reader who says that something is wrong now. */
export function wrongNow(state: State, to: Screen): Screen {
  const leg: Screen = { view: "safety", step: { ask: "leg" }, whole: true, again: true, to };
  return state.sitting.told.leg ? after(state, leg) : leg;
}

/** The answers from the first one on, to change them. */
export function changeAnswers(to: Screen): Screen {
  return { view: "safety", step: { ask: "leg" }, again: true, to };
}

