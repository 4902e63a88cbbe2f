// The planner: the one page on which a reader takes trees and builds the sheet.
// Nothing the reader says leaves this page's memory.

import { App, standing } from "../state/app";
import { linkedCode, openLinked } from "./code";
import { read, receive, topicOf } from "../state/data";
import { act, empty, slot } from "../page/dom";
import { endingView } from "./ending";
import { takeFragment } from "../page/fragment";
import { afterFrame } from "../page/frame";
import { gatheredView } from "./gathered";
import { changeAnswers, guarded, wrongNow } from "../state/guard";
import { TAKE, invited } from "../invite/address";
import { tendLinks } from "./links";
import { missingView } from "./missing";
import { ask, need, sheets } from "./need";
import { Paper } from "./paper";
import { offeredQuestion } from "./offer";
import { drawTiles } from "../tree/ground";
import { questionView } from "../tree/question";
import { Found, Kept } from "../state/kept";
import { Replace } from "./replace";
import { Parts, Wanted } from "../state/parts";
import { Screen, Screens } from "../state/screens";
import { SharedScreen } from "./shared";
import { Slip } from "./slip";
import { Sheets } from "./sheets";
import { gateView, groupView, legView } from "./signs";
import { Step } from "../safety/safety";
import { State } from "../state/state";
import { Tab } from "../state/tab";
import { Taps } from "../page/taps";
import { topic } from "./topic";
import { topicsView } from "./topics";
import { entry } from "../walk/walker";
import * as words from "../words/words";

/** Milliseconds until a reader is told that something loads. */
const PATIENCE = 400;

class Planner implements App {
  readonly state = new State(read("planner-data"));
  readonly parts = new Parts((part) => (part.voice || "") === this.state.voice && receive(this.state.data, part));
  private readonly tab = new Tab(this.state);
  private paper: Paper | undefined;
  private readonly screens: Screens;
  private readonly replace: Replace;
  private readonly title = document.title;
  private readonly taps: Taps;
  private readonly slip: Slip;
  private at: Screen = { view: "topics" };
  /** The last thing that was asked for; what loads for an earlier one is shown no more. */
  private turn = 0;
  /** The topics of what the reader said before, while it could not be loaded and waits in the tab. */
  private waits: string[] | undefined;
  private readonly linked: { question: string; code: string };

  constructor(private readonly root: HTMLElement, private readonly ready: () => void) {
    this.taps = new Taps(root);
    this.slip = new Slip(root);
    this.tieBar();
    this.replace = new Replace(this, root);
    this.linked = { question: offeredQuestion(), code: linkedCode() };
    this.screens = new Screens((screen) => this.show(screen));
    document.addEventListener("visibilitychange", () => this.lookAgain());
    if (this.state.data.edition.shared) new SharedScreen(this.root, () => this.leave());
    window.addEventListener("hashchange", () => this.takeLinked());
    const kept = this.tab.begin();
    if (!kept) this.begin(false);
    else this.restore(kept, () => this.wait(kept));
  }

  private restore(kept: string[], failed: () => void): void {
    this.load(kept).then(() => this.begin(true), failed);
  }

  /** Takes up what the tab kept and what a link brought. */
  private begin(kept: boolean): void {
    const again = kept ? this.tab.restore((text) => this.read(text)) : "";
    const waited = !!this.waits;
    this.waits = undefined;
    if (waited) this.show({ view: "topics" });
    else this.draw({ view: "topics" });
    this.ready();
    const says = (): unknown => again && this.say(again, true);
    if (this.state.kept.voice) this.go({ view: "topics" }, says);
    else says();
    if (this.linked.question) ask(this, "keelpathAsides", (asides) => asides.offer(this, this.linked.question));
    if (this.linked.code) openLinked(this, this.linked.code);
    this.takeLinked();
  }

  /** What the tab kept did not load, and nothing else is begun over it; only the safety screen is open all the while. */
  private wait(kept: string[]): void {
    this.waits = kept;
    this.draw({ view: "missing" });
    this.ready();
  }

  private missing(screen: Screen): HTMLElement {
    const kept = this.waits;
    if (!kept) return missingView(this, screen.to as Screen, () => this.go(screen.to as Screen));
    const turn = this.turn;
    const again = (): void => this.restore(kept, () => turn === this.turn && this.show(screen));
    // Where the sheet itself did not load, nothing can be read without it.
    return missingView(this, undefined, again, this.parts.lacking(this.needs({ view: "sheet" })).length ? undefined : () => this.begin(true));
  }

  load(topics: string[]): Promise<void> {
    const trees = this.state.data.topics.filter((t) => topics.indexOf(t.id) >= 0).map((t) => t.part);
    return this.parts.load(trees.concat(sheets()));
  }

  read(text: string): Found {
    return this.sheets().read(text, this.state.data);
  }

  go(screen: Screen, then?: () => void): void {
    const turn = ++this.turn;
    const first = guarded(this.state, screen);
    const lacking = this.waits ? [] : this.parts.lacking(this.needs(first));
    const kept = this.state.kept;
    const voice = screen.voice === undefined ? kept.voice || "" : screen.voice;
    const spoken = !!this.waits || voice === this.state.voice;
    if (lacking.length || !spoken) {
      setTimeout(() => turn === this.turn && this.say(words.loading, true), PATIENCE);
      const current = (does: () => void) => (): void => {
        if (turn === this.turn) does();
      };
      const coming = spoken ? this.parts.load(lacking) : need("keelpathAsides").then((asides) => asides.speak(this, voice));
      coming.then(current(() => this.go({ ...screen, voice: undefined }, then)), current(() => {
        kept.voice = this.state.voice || undefined; // in which the page goes on
        this.screens.go({ view: "missing", to: spoken ? screen : { ...screen, voice } });
      }));
      return;
    }
    this.screens.go(first.view === "topic" && !this.waits ? this.begun(first.tree as string) : screen);
    if (then) then();
    this.fetchAhead();
  }

  /** What a screen cannot be shown without. */
  private needs(screen: Screen): Wanted[] {
    if (screen.view === "sheet" || screen.view === "visit") return sheets();
    const topic = screen.view === "topic" && topicOf(this.state.data, screen.tree as string);
    return topic ? [topic.part] : [];
  }

  /** Loads what comes next while the reader reads: behind the safety screen the topic, and behind a question the sheet. */
  private fetchAhead(): void {
    const { view, to } = this.at;
    const next = view === "safety" && to ? this.needs(to) : view === "question" ? this.needs({ view: "sheet" }) : [];
    if (this.parts.lacking(next).length) this.parts.load(next).then(() => this.showSlip(), () => undefined); // it is asked for again when it is needed, and said then
  }

  back(screen: Screen): void {
    if (screen.view === "topic") this.go(screen);
    else this.screens.back(screen);
  }

  take(tree: string): void {
    this.go({ view: "topic", tree });
  }

  /** Begins a topic whose tree has come, or goes on with it; one that is done is gone through again. */
  private begun(tree: string): Screen {
    const again = standing(this.state, tree).view === "ending";
    this.state.begin(tree);
    return again ? { view: "question", tree, question: this.firstAsked(tree) } : standing(this.state, tree);
  }

  /** The first question of a topic that was not told in another. */
  private firstAsked(tree: string): string {
    const found = this.state.path(tree).steps.find((s) => !this.state.toldBefore(tree, s.question));
    return found ? found.question : this.state.tree(tree).start;
  }

  open(kept: Kept, said: string, seen: boolean): void {
    this.replace.open(kept, said, seen);
  }

  /** A link of another page that starts a topic, or an invitation to several. Whatever it names, nothing that was said is lost. */
  private takeLinked(): void {
    const { topics, lost } = invited(takeFragment(TAKE), this.state.data.topics.map((t) => t.id));
    const told = (): void => {
      if (lost) this.say(topics.length ? words.linkSomeTopics : words.linkNoTopic, true);
    };
    if (!topics.length) return told();
    if (topics.length > 1) this.state.lineUp(topics);
    this.go({ view: "topic", tree: topics[0] as string }, told);
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

  /** Answers may have changed since a screen was left; then the tree's standing counts. What was missing may have come. */
  private standingFor(screen: Screen): Screen {
    if (this.waits) return screen.view === "safety" ? screen : { view: "missing" };
    if (screen.view === "missing" && (screen.to as Screen).voice === undefined && !this.parts.lacking(this.needs(screen.to as Screen)).length) return { view: "topics" };
    if (!screen.tree || screen.view === "safety" || screen.view === "topic") return screen;
    const path = this.state.path(screen.tree);
    const fits = screen.view === "ending" ? path.ending : path.open === screen.question || path.steps.some((s) => s.question === screen.question);
    return fits ? screen : standing(this.state, screen.tree);
  }

  private draw(screen: Screen): Screen {
    this.turn++;
    if (this.paper) this.paper.hide();
    this.at = screen;
    document.documentElement.classList.remove("calling");
    const place = slot(this.root, "view");
    empty(place);
    place.appendChild(this.viewOf(screen));
    tendLinks(this, place);
    this.drawGround(screen, place);
    this.showBar(screen);
    afterFrame(() => this.showSlip());
    return screen;
  }

  /** Draws what rows name: what has come at once, and the rest when it comes. Where it does not come, the words stand alone. */
  private drawGround(screen: Screen, place: HTMLElement): void {
    drawTiles(place);
    need("keelpathGround")
      .then((ground) => ground.ready(screen.tree || ""))
      .then(() => drawTiles(place), () => undefined);
  }

  private viewOf(screen: Screen): HTMLElement {
    switch (screen.view) {
      case "topics":
      case "topic": // of which another screen has taken the place
        return topicsView(this);
      case "missing":
        return this.missing(screen);
      case "question":
        return questionView(topic(this, screen), screen.question as string);
      case "ending":
        return endingView(this, screen);
      case "sheet":
        return this.sheets().sheetView(this, this.onPaper());
      case "visit":
        return this.sheets().visitView(this, this.onPaper());
      case "safety":
        return this.safetyView(screen);
    }
  }

  private sheets(): Sheets {
    return (window as unknown as { keelpathSheets: Sheets }).keelpathSheets;
  }

  private onPaper(): Paper {
    return (this.paper = this.paper || new (this.sheets().Paper)(this));
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
    if (screen.view === "safety" || screen.view === "missing") return slot(slot(this.root, "view"), "focus").textContent as string;
    if (!screen.tree) return "";
    const tree = this.state.tree(screen.tree);
    const question = screen.question ? entry(tree.questions, screen.question) : undefined;
    const ending = screen.view === "ending" ? entry(tree.endings, this.state.path(screen.tree).ending) : undefined;
    const at = question ? question.text : ending ? ending.title : "";
    return [at, tree.title].filter((s) => s).join(" · ");
  }

  /** Moves the focus to where reading starts, and shows the page from its top where that brings it into view. */
  private bringIntoView(): void {
    const focus = slot(slot(this.root, "view"), "focus");
    focus.tabIndex = -1;
    focus.focus({ preventScroll: true });
    if (focus.getBoundingClientRect().bottom + window.pageYOffset < window.innerHeight / 2) return window.scrollTo(0, 0);
    const by = document.getElementById(focus.getAttribute("aria-describedby") || "");
    const above = by && by.getBoundingClientRect().top < focus.getBoundingClientRect().top; // as a grave caution is
    (above ? by : focus).scrollIntoView();
  }

  private tieBar(): void {
    act(this.root, "slip", () => this.go({ view: "sheet" }));
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
    slot(this.root, "to-sheet").hidden = !!this.waits || screen.view === "sheet";
    slot(this.root, "to-topics").hidden = !!this.waits || screen.view === "topics";
    if (!this.isBeside()) this.slip.show([]);
  }

  /** The sheet as it grows stands beside the topics' screens, as soon as what it is made with has come. */
  private isBeside(): boolean {
    return ["topics", "question", "ending"].indexOf(this.at.view) >= 0 && !this.parts.lacking(sheets()).length;
  }

  private showSlip(): void {
    if (!this.isBeside()) return;
    this.slip.show(this.sheets().about(this.state));
    slot(this.root, "to-sheet").hidden = !slot(this.root, "slip").hidden;
  }

  /** Asks once more before clearing, here in the page. */
  private ask(open: boolean, back = false): void {
    slot(this.root, "sure").hidden = !open;
    if (open) slot(this.root, "sure-text").focus();
    if (back) this.root.querySelector<HTMLElement>('[data-act="clear"]')?.focus();
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
    this.waits = undefined;
    this.screens.forget();
    this.slip.show([]);
    this.go({ view: "topics" }, () => this.say(words.cleared, true));
  }
}

function start(): void {
  const root = document.getElementById("planner");
  const plain = document.getElementById("planner-plain");
  const name = document.getElementById("planner-name");
  if (!root) return;
  // Only with all in place does the planner take over from the plain links.
  new Planner(root, () => {
    root.hidden = false;
    if (name) name.className = "unseen";
    if (plain) plain.hidden = true;
  });
}

start();
