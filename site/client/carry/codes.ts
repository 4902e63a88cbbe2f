// The sheet's code, made and read, and the files for a clinic's records. Few readers
// ask for one, so this is not in the planner's own script.

import { App } from "../state/app";
import { make, slot } from "../page/dom";
import { download } from "../sheet/files";
import { holdsNothing, nothing } from "../state/kept";
import { DataAbout } from "../types/publish";
import { exact, refused } from "../sums/quantity";
import { Form, response } from "./response";
import { Book, NoSheet, Sheet, Voice, decode, encode, named } from "./sheetcode";
import { State } from "../state/state";
import { Answers, SKIP, TableRow, amount, entry } from "../walk/walker";
import * as words from "../words/words";

/** What the build writes behind the script. */
export interface Held {
  edition: number;
  /** The topics in their order, each with the number of its paths. */
  paths: [string, string][];
  voices: Voice[];
  /** Trees that can be written as a form. */
  forms: { [tree: string]: Form };
}

function book(state: State, carry: Held): Book {
  const data = state.data;
  const cards: Book["cards"] = {};
  for (const id of Object.keys(data.cards)) cards[id] = { prompts: data.cards[id] as string[] };
  const prompts = data.themes.reduce((ids, t) => ids.concat(t.prompts), data.general.slice());
  return {
    edition: carry.edition, paths: carry.paths, trees: data.trees, prompts, general: data.general, cards, facts: data.facts, fits: data.prompts, units: data.units,
    voices: carry.voices, about: data.about as DataAbout,
  };
}

/** The sheet's code, and what of the sheet it leaves out. */
export function makeCode(state: State, carry: Held): { code: string; leaves: string[] } {
  const code = encode(book(state, carry), state.toTake());
  return { code, leaves: notHeld(state, decode(book(state, carry), code)) };
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
export function records(app: App, view: HTMLElement, carry: Held): void {
  const place = slot(view, "records");
  for (const id of app.state.kept.taken) {
    const form = carry.forms[id];
    if (!form) continue;
    const tree = app.state.tree(id);
    const button = make("button", words.saveAnswers(tree.title));
    button.setAttribute("type", "button");
    button.addEventListener("click", () => {
      download(app, `${id}.questionnaire-response.json`, response(tree, form, app.state.toTake().answers[id] || {}, app.state.data.units, words.answeredBy(app.state.voice)), "application/fhir+json");
    });
    place.appendChild(button);
  }
  slot(view, "records-part").hidden = !place.childElementCount;
}

/** Opens the sheet of a code, or says why not. */
export function openCode(app: App, carry: Held, text: string, wrong: (problem: string) => void): void {
  const refuse = (why: NoSheet): void => wrong(why.refused === "mistyped" ? words.codeWrong : words.codeOther);
  const opens = (): void => {
    const found = decode(book(app.state, carry), text);
    if (isRefused(found)) return refuse(found);
    const kept = { ...nothing(), ...found };
    if (holdsNothing(kept)) return wrong(words.emptyCode);
    app.open(kept, words.opened, false);
  };
  const notLoaded = (): void => wrong(words.notLoaded);
  app.load([]).then(() => {
    const trees = named(book(app.state, carry), text);
    if (isRefused(trees)) refuse(trees);
    else app.load(trees).then(opens, notLoaded);
  }, notLoaded);
}

function isRefused(found: Sheet | string[] | NoSheet): found is NoSheet {
  return "refused" in found;
}
