// The sheet's code on the page: made, linked to, and read again.

import { App } from "./app";
import { Carry } from "./carry";
import { act, fill, make, slot } from "./dom";
import { takeFragment } from "./fragment";
import { holdsNothing, nothing } from "./kept";
import { need } from "./need";
import { hideProblem, showProblem } from "./problem";
import { copy, download } from "./share";
import { Book, NoSheet, Sheet } from "./sheetcode";
import { State } from "./state";
import { exact, refused } from "./quantity";
import { Answers, SKIP, TableRow, amount, entry } from "./walker";
import * as words from "./words";

const MARK = "#code=";

function book(state: State, carry: Carry): Book {
  const data = state.data;
  const cards: Book["cards"] = {};
  for (const id of Object.keys(data.cards)) cards[id] = { prompts: data.cards[id] as string[] };
  const prompts = data.topics.reduce((ids, t) => ids.concat(t.prompts), data.general.slice());
  return { edition: carry.edition, trees: data.trees, prompts, general: data.general, cards, facts: data.facts || {}, fits: data.prompts, units: data.units };
}

/** Ties the part of the sheet that makes a code, a link, and files for a clinic's records. */
export function tieCode(app: App, view: HTMLElement): void {
  const made = slot(view, "code-made");
  const code = view.querySelector<HTMLInputElement>("#planner-code") as HTMLInputElement;
  const link = view.querySelector<HTMLInputElement>("#planner-link") as HTMLInputElement;
  act(view, "code", () => {
    asked(app, (carry) => {
      code.value = carry.encode(book(app.state, carry), app.state.toTake());
      fill(view, "own-left", notHeld(app.state, carry.decode(book(app.state, carry), code.value)).join(" "));
      slot(view, "link-made").hidden = true;
      made.hidden = false;
      code.focus();
    });
  });
  act(view, "copy-code", () => copy(app, code, code.value));
  act(view, "link", () => {
    slot(view, "link-made").hidden = false;
    copy(app, link, (location.href.split("#")[0] as string) + MARK + encodeURIComponent(code.value));
  });
  slot(view, "share").addEventListener("toggle", () => asked(app, (carry) => records(app, view, carry)), { once: true });
}

/** What of the sheet the code has no room for: the reader's own words, and amounts finer than its steps. */
function notHeld(state: State, held: Sheet | NoSheet): string[] {
  const out = state.kept.own.length || state.kept.day ? [words.codeLeaves] : [];
  const rounded = isRefused(held) ? [] : held.taken.reduce((all, tree) => all.concat(roundedIn(state, tree, held.answers[tree] || {})), [] as string[]);
  return out.concat(rounded, rounded.length ? [words.fileKeeps] : []);
}

function roundedIn(state: State, tree: string, held: Answers): string[] {
  const out: string[] = [];
  for (const step of state.path(tree).steps) {
    const m = (entry(state.tree(tree).questions, step.question) as TableRow).measure;
    const typed = step.chosen[0] as string;
    const back = (entry(held, step.question) || [])[0];
    if (!m || typed === SKIP || back === undefined) continue;
    const was = amount(m, typed, state.data.units);
    const is = amount(m, back, state.data.units);
    if (!refused(was) && !refused(is) && Math.abs(exact(was) - exact(is)) > 1e-9) out.push(words.codeHolds(typed, back));
  }
  return out;
}

/** A button for each tree whose answers can be saved as a filled form. */
function records(app: App, view: HTMLElement, carry: Carry): void {
  const place = slot(view, "records");
  for (const id of app.state.kept.taken) {
    const form = carry.forms[id];
    if (!form) continue;
    const tree = app.state.tree(id);
    const button = make("button", words.saveAnswers(tree.title));
    button.setAttribute("type", "button");
    button.addEventListener("click", () => {
      download(app, `${id}.questionnaire-response.json`, carry.response(tree, form, app.state.toTake().answers[id] || {}, app.state.data.units), "application/fhir+json");
    });
    place.appendChild(button);
  }
  slot(view, "records-part").hidden = !place.childElementCount;
}

/** Ties the field that takes a code. */
export function tieTyped(app: App, view: HTMLElement): void {
  const field = view.querySelector<HTMLInputElement>("#planner-typed") as HTMLInputElement;
  act(view, "open-code", () => {
    hideProblem(view, "code-problem");
    openCode(app, field.value, (problem) => showProblem(view, problem, field, "code-problem"));
  });
  field.addEventListener("input", () => hideProblem(view, "code-problem"));
}

function openCode(app: App, text: string, wrong: (problem: string) => void): void {
  asked(app, (carry) => {
    const found = carry.decode(book(app.state, carry), text);
    if (isRefused(found)) return wrong(found.refused === "mistyped" ? words.codeWrong : words.codeOther);
    const kept = { ...nothing(), ...found };
    if (holdsNothing(kept)) return wrong(words.emptyCode);
    app.open(kept, words.opened, false);
  });
}

function isRefused(found: Sheet | NoSheet): found is NoSheet {
  return "refused" in found;
}

/** A code that a link brought. */
export function linkedCode(): string {
  const coded = takeFragment(MARK);
  try {
    return decodeURIComponent(coded);
  } catch {
    return coded; // cut off or changed: the code's own check will say so
  }
}

/** Opens it; a code that cannot be read is said to every reader, for there is no field to say it at. */
export function openLinked(app: App, code: string): void {
  openCode(app, code, (problem) => app.say(problem, true));
}

function asked(app: App, then: (carry: Carry) => void): void {
  need("keelpathCarry").then(then).catch(() => app.say(words.notLoaded, true));
}
