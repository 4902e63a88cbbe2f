// What few readers come to need, and the planner loads when they do: another voice, a question that a figure on another
// page brought along, and a saved sheet that is opened again. The build writes behind it where the words of each voice are (builder/publish/voices.go).

import { App } from "../state/app";
import { receive, topics } from "../state/data";
import { act, slot, template } from "../page/dom";
import { tooMuch } from "./field";
import { hideProblem, showProblem } from "../page/problem";
import { LARGEST, MOST_ASKED, topicsIn } from "../state/kept";
import { DataPrompt, Part } from "../types/publish";
import { entry } from "../walk/walker";
import * as words from "../words/words";

export interface Asides {
  offer: typeof offer;
  speak: typeof speak;
  openFile: typeof openFile;
  /** The part of each voice that stands in the page in the reader's own. */
  voices: { [voice: string]: string };
  /** Where such a question is offered. */
  offered: string;
}

const root = document.getElementById("planner") as HTMLElement;

// What the build names lies beside this script.
const beside = ((document.currentScript as HTMLScriptElement).getAttribute("src") as string).replace(/[^/]*$/, "");

/** What the page had in the reader's own voice, before any other took its place. */
let own: Part | undefined;

/**
 * Says everything in a voice. Nothing is said in it before all of it has come: the page's own words, and those of what was taken
 * so far. Answers have the same names in each voice, so none is lost.
 */
function speak(app: App, voice: string): Promise<void> {
  const { parts, state } = app;
  if (!entry(asides.voices, voice)) voice = ""; // another edition's, or the reader's own
  const name = `voice.${voice}`;
  const load = voice ? parts.load([{ name, script: beside + (entry(asides.voices, voice) as string) }]) : Promise.resolve();
  return load.then(() => {
    own = own || before(app, parts.came[name] as Part);
    const page = voice ? (parts.came[name] as Part) : own;
    const suffix = voice && `.${voice}`;
    const at = page.at || {};
    const script = (base: string): string => at[base] as string;
    const came = ["about", "prompts"].filter((base) => parts.came[base + root.getAttribute("data-voice")]);
    const wanted = came.concat(state.data.trees.map((t) => `tree-${t.id}`));
    return parts.load(wanted.map((base) => ({ name: base + suffix, script: script(base) }))).then(() => {
      state.voice = voice;
      state.kept.voice = voice || undefined;
      root.setAttribute("data-voice", suffix);
      for (const base of ["about", "prompts"]) root.setAttribute(`data-${base}`, script(base));
      receive(state.data, page);
      for (const part of Object.keys(parts.came)) if (part !== name && (parts.came[part] as Part).voice === page.voice) receive(state.data, parts.came[part] as Part);
      state.data.topics = topics(template("view-topics"));
      for (const topic of state.data.topics) topic.part.name += suffix;
      state.data.tells = page.tells;
      (globalThis as { keelpathSaid?: Part["said"] }).keelpathSaid = page.said;
    });
  });
}

/** What another voice will take the place of. */
function before(app: App, other: Part): Part {
  const box = document.createElement("template");
  box.innerHTML = other.html as string;
  const ids = Array.from(box.content.children).map((e) => e.id);
  const prompts: { [id: string]: DataPrompt } = {};
  for (const id of Object.keys(other.prompts || {})) prompts[id] = entry(app.state.data.prompts, id) as DataPrompt;
  const at: { [base: string]: string } = {};
  for (const base of ["about", "prompts"]) at[base] = root.getAttribute(`data-${base}`) as string;
  for (const topic of app.state.data.topics) at[topic.part.name] = topic.part.script;
  return { html: ids.map((id) => (document.getElementById(id) as HTMLElement).outerHTML).join(""), prompts, at };
}

/** A question that a figure of another page brought along. The reader decides. */
function offer(app: App, question: string): void {
  if (tooMuch(question, MOST_ASKED)) return app.say(words.offerTooLong, true);
  const box = document.createElement("template");
  box.innerHTML = asides.offered;
  const place = root.insertBefore(box.content.firstElementChild as HTMLElement, slot(root, "view"));
  slot(place, "offered").textContent = question;
  slot(place, "offer-text").focus();
  app.load([]).catch(() => undefined);
  act(place, "take-offer", () => {
    place.hidden = true;
    const on = app.state.addOwn(question);
    app.go({ view: "sheet" }, () => app.say(on ? words.onSheet : words.enoughOwn, true));
  });
  act(place, "leave-offer", () => {
    place.hidden = true;
    app.say(words.notOnSheet, true);
    slot(slot(root, "view"), "focus").focus();
  });
}

/** A character is four bytes at most. */
const MOST_BYTES = 4 * LARGEST;

/** Opens the saved sheet that a field has. */
function openFile(app: App, view: HTMLElement, field: HTMLInputElement): void {
  const file = field.files && field.files[0];
  if (!file) return;
  hideProblem(view, "file-problem");
  const done = (text: string): void => {
    field.value = ""; // so that the same file can be chosen again
    open(app, view, field, text);
  };
  if (file.size > MOST_BYTES) return refuse(view, field, words.tooLarge);
  const reader = new FileReader();
  reader.onload = () => done(String(reader.result));
  reader.onerror = () => done("");
  reader.readAsText(file);
}

function open(app: App, view: HTMLElement, field: HTMLElement, text: string): void {
  const reads = (): void => {
    const found = app.read(text);
    if ("refused" in found) return refuse(view, field, found.says);
    const left = found.says;
    app.open(found.kept, [words.opened, left].filter((s) => s).join(" "), !!left);
  };
  app.load(topicsIn(text, app.state.data)).then(reads, () => refuse(view, field, words.notLoaded));
}

function refuse(view: HTMLElement, field: HTMLElement, why: string): void {
  showProblem(view, why, field, "file-problem");
}

const asides: Asides = { offer, speak, openFile, voices: {}, offered: "" };
(window as { keelpathAsides?: Asides }).keelpathAsides = asides;
