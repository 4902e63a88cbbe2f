// The planner: the one page on which a reader takes trees and builds the sheet.
// Nothing the reader says leaves this page's memory.

import { App, standing } from "../state/app";
import { linkedCode, openLinked } from "./code";
import { read } from "../state/data";
import { act, empty, slot } from "../page/dom";
import { endingView } from "./ending";
import { takeFragment } from "../page/fragment";
import { gatheredView } from "./gathered";
import { changeAnswers, guarded, wrongNow } from "../state/guard";
import { TAKE, tendLinks } from "./links";
import { Paper } from "./paper";
import { offeredQuestion } from "./offer";
import { questionView } from "../tree/question";
import { tooMuch } from "./field";
import { Kept, MOST_ASKED } from "../state/kept";
import { Replace } from "./replace";
import { Screen, Screens } from "../state/screens";
import { SharedScreen } from "./shared";
import { sheetView } from "./sheet";
import { gateView, groupView, legView } from "./signs";
import { Step } from "../safety/safety";
import { State } from "../state/state";
import { Tab } from "../state/tab";
import { Taps } from "../page/taps";
import { topic } from "./topic";
import { topicsView } from "./topics";
import { visitView } from "./visit";
import { entry } from "../walk/walker";
import * as words from "../words/words";

class Planner implements App {
  readonly state = new State(read("planner-data"));
  private readonly tab = new Tab(this.state);
  private readonly paper = new Paper(this);
  private readonly screens: Screens;
  private readonly replace: Replace;
  private readonly title = document.title;
  private readonly taps: Taps;
  private at: Screen = { view: "topics" };

  constructor(private readonly root: HTMLElement) {
    this.taps = new Taps(root);
    this.tieBar();
    this.replace = new Replace(this, root);
    const again = this.tab.restore();
    this.draw(this.at);
    const offered = offeredQuestion();
    const code = linkedCode();
    this.screens = new Screens((screen) => this.show(screen));
    if (again) this.say(again, true);
    if (offered) this.offer(offered);
    if (code) openLinked(this, code);
    this.takeLinked();
    window.addEventListener("hashchange", () => this.takeLinked());
    document.addEventListener("visibilitychange", () => this.lookAgain());
    if (this.state.data.edition.shared) new SharedScreen(this.root, () => this.leave());
  }

  go(screen: Screen): void {
    this.screens.go(screen);
  }

  back(screen: Screen): void {
    this.screens.back(screen);
  }

  take(tree: string): void {
    const again = standing(this.state, tree).view === "ending";
    this.state.begin(tree);
    this.go(again ? { view: "question", tree, question: this.firstAsked(tree) } : standing(this.state, tree));
  }

  /** The first question of a topic that was not told in another. */
  private firstAsked(tree: string): string {
    const found = this.state.path(tree).steps.find((s) => !this.state.toldBefore(tree, s.question));
    return found ? found.question : this.state.tree(tree).start;
  }

  open(kept: Kept, said: string, seen: boolean): void {
    this.replace.open(kept, said, seen);
  }

  /** A link of another page that starts a topic. */
  private takeLinked(): void {
    const id = takeFragment(TAKE);
    if (this.state.data.trees.some((t) => t.id === id)) this.take(id);
  }

  /** A page that was left open may have outlived its sitting. */
  private lookAgain(): void {
    if (document.visibilityState === "visible" && guarded(this.state, this.at) !== this.at) this.go(this.at);
  }

  /** The line is seen only where the page itself would not show what happened; so nothing jumps. */
  say(text: string, seen = false): void {
    const status = slot(this.root, "status");
    status.textContent = text;
    status.classList.toggle("unseen", !seen);
  }

  /** Shows a screen, or the part of the safety screen that comes before it. */
  private show(asked: Screen): Screen {
    this.say("");
    this.ask(false);
    const standing = this.standingFor(asked);
    const screen = this.draw(guarded(this.state, standing));
    this.taps.screenChanged();
    this.bringIntoView();
    document.title = [this.nameOf(screen), this.title].filter((s) => s).join(" · ");
    this.readCaution(screen);
    return screen === standing ? asked : screen;
  }

  /** Focus is on the heading of what to do; the first caution is read behind it. */
  private readCaution(screen: Screen): void {
    if (!screen.step || screen.step.ask !== "help") return;
    const first = slot(slot(this.root, "view"), "cautions").firstElementChild as HTMLElement;
    this.say((first.textContent as string).replace(/\s+/g, " ").trim());
  }

  /** Answers may have changed since a screen was left; then the tree's standing counts. */
  private standingFor(screen: Screen): Screen {
    if (!screen.tree || screen.view === "safety") return screen;
    const path = this.state.path(screen.tree);
    const fits = screen.view === "ending" ? path.ending : path.open === screen.question || path.steps.some((s) => s.question === screen.question);
    return fits ? screen : standing(this.state, screen.tree);
  }

  private draw(screen: Screen): Screen {
    this.paper.hide();
    this.at = screen;
    document.documentElement.classList.remove("calling");
    const place = slot(this.root, "view");
    empty(place);
    place.appendChild(this.viewOf(screen));
    tendLinks(this, place);
    this.showBar(screen);
    return screen;
  }

  private viewOf(screen: Screen): HTMLElement {
    switch (screen.view) {
      case "topics":
        return topicsView(this);
      case "question":
        return questionView(topic(this, screen), screen.question as string);
      case "ending":
        return endingView(this, screen);
      case "sheet":
        return sheetView(this, this.paper);
      case "visit":
        return visitView(this, this.paper);
      case "safety":
        return this.safetyView(screen);
    }
  }

  private safetyView(screen: Screen): HTMLElement {
    switch ((screen.step as Step).ask) {
      case "leg":
        return legView(this, screen);
      case "gate":
        return gateView(this, screen);
      case "group":
        return groupView(this, screen);
      default:
        return gatheredView(this, screen);
    }
  }

  private nameOf(screen: Screen): string {
    if (screen.view === "sheet") return words.sheet;
    if (screen.view === "visit") return words.visit;
    if (screen.view === "safety") return slot(slot(this.root, "view"), "focus").textContent as string;
    if (!screen.tree) return "";
    const tree = this.state.tree(screen.tree);
    const question = screen.question ? entry(tree.questions, screen.question) : undefined;
    const ending = screen.view === "ending" ? entry(tree.endings, this.state.path(screen.tree).ending) : undefined;
    const at = question ? question.text : ending ? ending.title : "";
    return [at, tree.title].filter((s) => s).join(" · ");
  }

  /** Moves the focus to where reading starts, and shows the whole view from its top where that fits. */
  private bringIntoView(): void {
    const focus = slot(slot(this.root, "view"), "focus");
    focus.tabIndex = -1;
    focus.focus({ preventScroll: true });
    const depth = focus.getBoundingClientRect().bottom - this.root.getBoundingClientRect().top;
    const caution = focus.getAttribute("aria-describedby");
    const first = (caution && document.getElementById(caution)) || focus; // a caution stands above it
    (depth < window.innerHeight / 2 ? this.root : first).scrollIntoView();
  }

  private tieBar(): void {
    act(this.root, "bar-sheet", () => this.go({ view: "sheet" }));
    act(this.root, "bar-topics", () => this.go({ view: "topics" }));
    act(this.root, "bar-wrong", () => this.go(wrongNow(this.state, this.left())));
    act(this.root, "bar-safety", () => this.go(changeAnswers(this.left())));
    act(this.root, "clear", () => this.ask(true));
    act(this.root, "keep", () => this.ask(false, true));
    act(this.root, "clear-now", () => this.clear());
  }

  /** Where a reader who turns to the safety screen comes back to. */
  private left(): Screen {
    return this.at.view === "safety" ? this.at.to || { view: "topics" } : this.at;
  }

  private showBar(screen: Screen): void {
    this.replace.follow(screen.view);
    const told = !this.state.sitting.isEmpty();
    slot(this.root, "bar").hidden = screen.view === "topics" && this.state.isEmpty() && !told;
    slot(this.root, "to-wrong").hidden = screen.view === "safety" && !!screen.whole;
    slot(this.root, "to-safety").hidden = screen.view === "safety" || !told;
    slot(this.root, "to-sheet").hidden = screen.view === "sheet";
    slot(this.root, "to-topics").hidden = screen.view === "topics";
  }

  /** Asks once more before clearing, here in the page. */
  private ask(open: boolean, back = false): void {
    slot(this.root, "sure").hidden = !open;
    if (open) slot(this.root, "sure-text").focus();
    if (back) this.root.querySelector<HTMLElement>('[data-act="clear"]')?.focus();
  }

  /** A question that a figure of another page brought along. The reader decides. */
  private offer(question: string): void {
    if (tooMuch(question, MOST_ASKED)) return this.say(words.offerTooLong, true);
    const place = slot(this.root, "offer");
    slot(place, "offered").textContent = question;
    place.hidden = false;
    act(place, "take-offer", () => {
      place.hidden = true;
      const on = this.state.addOwn(question);
      this.go({ view: "sheet" });
      this.say(on ? words.onSheet : words.enoughOwn, true);
    });
    act(place, "leave-offer", () => {
      place.hidden = true;
      this.say(words.notOnSheet, true);
      slot(slot(this.root, "view"), "focus").focus();
    });
  }

  /** Clears a shared screen and goes back to where the next reader begins. */
  private leave(): void {
    this.state.clear();
    this.screens.forget();
    this.draw({ view: "topics" });
    location.replace("../index.html");
  }

  private clear(): void {
    this.state.clear();
    this.tab.forget();
    this.screens.forget();
    this.go({ view: "topics" });
    this.say(words.cleared, true);
  }
}

function start(): void {
  const root = document.getElementById("planner");
  const plain = document.getElementById("planner-plain");
  if (!root) return;
  new Planner(root);
  // Only now, with all in place, does the planner take over from the plain links.
  root.hidden = false;
  if (plain) plain.hidden = true;
  const offer = slot(root, "offer");
  if (!offer.hidden) slot(offer, "offer-text").focus();
}

start();
