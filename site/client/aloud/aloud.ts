// Reads a part of a page aloud with a voice that the device makes by itself, and marks the sentence that is being read. Where
// the device has no such voice, and on a shared screen, nothing is offered.

import { make } from "../page/dom";
import * as words from "../words/words";
import { passage, Sentence } from "./passage";
import { ownVoice, spoken } from "./sentences";

/** Milliseconds after which a voice that has not begun is given up; some devices list voices that never speak. */
const LONGEST = 5000;

/** How often, and how far apart in milliseconds, a device is asked for its voices; not every one tells when they are there. */
const ASKED = 8;
const APART = 250;

/** What ends the reading that goes on. */
let stop = () => {};

/** Calls back once the device is known to have a voice of its own in the page's language. */
export function whenVoiced(does: () => void): void {
  if (!window.speechSynthesis || document.body.hasAttribute("data-shared")) return;
  let left = ASKED;
  const ask = () => {
    if (voice()) does();
    else if (--left) setTimeout(ask, APART);
  };
  ask();
}

function voice(): SpeechSynthesisVoice | undefined {
  return ownVoice(speechSynthesis.getVoices(), document.documentElement.lang);
}

/** A button that reads a part of the page, and stops when it is pressed again, when anything else is, or by Escape. */
export function button(part: Element): HTMLElement {
  const made = make("button", words.readAloud, "plain aloud");
  made.setAttribute("type", "button");
  made.addEventListener("click", (event) => {
    event.stopPropagation(); // this tap begins it, and would end it too
    if (made.hasAttribute("data-reads")) return stop();
    stop();
    begin(made, part);
  });
  return made;
}

function begin(made: HTMLElement, part: Element): void {
  const by = voice();
  if (!by) return;
  const left = passage(part, document.documentElement.lang);
  made.setAttribute("data-reads", "");
  made.textContent = words.stopReading;
  const over = () => {
    stop = () => {};
    speechSynthesis.cancel();
    follow(undefined);
    made.removeAttribute("data-reads");
    made.textContent = words.readAloud;
    for (const [on, event] of ends()) on.removeEventListener(event, ended);
  };
  const ended = (event: Event) => {
    if (event.type !== "keydown" || (event as KeyboardEvent).key === "Escape") over();
  };
  for (const [on, event] of ends()) on.addEventListener(event, ended);
  stop = over;
  speechSynthesis.cancel();
  say(left, by, () => stop === over, over, (failed) => {
    over();
    if (failed) made.textContent = words.notRead;
  });
}

/** What ends a reading besides its button: a tap, a key, leaving the page. */
function ends(): [EventTarget, string][] {
  return [
    [document, "click"],
    [document, "keydown"],
    [window, "pagehide"],
  ];
}

/** Says one sentence after another while it still goes on. */
function say(left: Sentence[], by: SpeechSynthesisVoice, on: () => boolean, over: () => void, given: (failed: boolean) => void): void {
  const next = left.shift();
  if (!next) return over();
  const said = new SpeechSynthesisUtterance(spoken(next.text, words.ratioTo));
  said.voice = by;
  said.lang = by.lang;
  const late = setTimeout(() => on() && given(true), LONGEST);
  said.onstart = () => {
    clearTimeout(late);
    if (on()) follow(next.range);
  };
  said.onend = () => {
    clearTimeout(late);
    if (on()) say(left, by, on, over, given);
  };
  said.onerror = () => {
    clearTimeout(late);
    if (on()) given(true);
  };
  speechSynthesis.speak(said);
}

interface Marks {
  highlights?: { set(name: string, mark: unknown): void; delete(name: string): void };
}
declare const Highlight: (new (range: Range) => unknown) | undefined;

/** Marks the sentence that is read and brings it into view; where a browser cannot mark a sentence, its block. */
function follow(range: Range | undefined): void {
  const marks = (CSS as Marks).highlights;
  for (const e of Array.from(document.querySelectorAll(".being-read"))) e.classList.remove("being-read");
  if (marks) marks.delete("being-read");
  if (!range) return;
  const near = range.startContainer.parentElement as Element;
  if (marks && typeof Highlight !== "undefined") marks.set("being-read", new Highlight(range));
  else near.classList.add("being-read");
  const box = range.getBoundingClientRect();
  if (box.top < 0 || box.bottom > innerHeight) near.scrollIntoView({ block: "center" });
}

/** The view changes, so what was read is gone. */
export function stopReading(): void {
  stop();
}
