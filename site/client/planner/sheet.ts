// The sheet on the screen: look it over, star, move, reword, take off, add, print.

import { DAY, about, forget, isOff, say, sentences } from "../sheet/about";
import { outdated, since } from "../state/amounts";
import { App } from "../state/app";
import { addEmergency, cautions } from "../sheet/caution";
import { Section, cameFrom, compose, move } from "../sheet/compose";
import { act, clone, empty, fill, make, put, slot, submit, unseen } from "../page/dom";
import { tieWords, tooMuch } from "./field";
import { MOST_ASKED, oneLine } from "../state/kept";
import { notes } from "../sheet/notes";
import { Paper } from "./paper";
import { hideProblem, showProblem } from "../page/problem";
import { promptItem } from "../sheet/prompts";
import { reword } from "../sheet/reword";
import { tieShare } from "./share";
import * as words from "../words/words";

export function sheetView(app: App, paper: Paper): HTMLElement {
  const view = clone("view-sheet");
  new SheetView(app, paper, view).showAll();
  return view;
}

/** What a button of a prompt's tools is found by again, once the list is made anew. */
type Tool = "star" | "off" | "up" | "down" | "adjust";

/** So few stand open on any screen. */
const FEW = 4;
const NARROW = "(max-width: 40em)";

class SheetView {
  constructor(
    private readonly app: App,
    private readonly paper: Paper,
    private readonly view: HTMLElement,
  ) {
    const kept = app.state.kept;
    const details = slot(view, "more") as HTMLDetailsElement;
    details.open = kept.moreOpen;
    details.addEventListener("toggle", () => {
      app.state.kept.moreOpen = details.open;
      this.showPaper();
    });
    submit(slot(view, "add"), () => this.addOwn());
    this.tick("large");
    this.tick("told");
    this.tick("back");
    const day = view.querySelector<HTMLTextAreaElement>("#planner-day") as HTMLTextAreaElement;
    day.value = kept.day;
    tieWords(day, MOST_ASKED, (text) => {
      app.state.kept.day = text;
      this.showAbout();
      this.showPaper();
    });
    tieWords(this.ownField(), MOST_ASKED);
    act(view, "print", () => window.print());
    act(view, "visit", () => app.go({ view: "visit" }));
    act(view, "topics", () => app.go({ view: "topics" }));
    tieShare(app, view);
    forget(app.state);
    this.showCautions();
    this.showAbout();
    this.sayChanged();
  }

  /** Says once that numbers have changed; what they are now stands beside the questions. */
  private sayChanged(): void {
    const state = this.app.state;
    const changed = outdated(state);
    if (changed.some((one) => state.noticed.indexOf(one) < 0)) this.app.say(words.numbersChanged(changed.length));
    state.noticed = changed;
  }

  /** What was told, and a box for each sentence of it. */
  private showAbout(): void {
    const state = this.app.state;
    const all = sentences(state);
    const lines = all.filter((one) => one.id !== DAY).map((one) => {
      const li = clone("part-line");
      const box = li.querySelector("input") as HTMLInputElement;
      const label = li.querySelector("label") as HTMLLabelElement;
      box.id = label.htmlFor = `line-${one.id.replace(/\//g, "-")}`;
      box.checked = !isOff(state, one.id);
      label.textContent = one.text;
      box.addEventListener("change", () => {
        say(state, one.id, box.checked);
        fill(this.view, "about", about(state).join(" "));
        this.showPaper();
        this.app.say(box.checked ? words.added(one.text) : words.takenOff(one.text));
      });
      return li;
    });
    this.list("lines", lines);
    slot(this.view, "lines-fold").hidden = !lines.length;
    fill(this.view, "about", about(state).join(" "));
    slot(this.view, "about-part").hidden = !all.length;
  }

  showAll(): void {
    const sheet = compose(this.app.state);
    const first = sheet.first.length ? [this.section({ title: words.first, prompts: sheet.first }, "first")] : [];
    this.list("sections", first.concat(this.others(sheet.sections)));
    this.list("folded", sheet.more.map((g) => this.section(g)));
    slot(this.view, "more").hidden = !sheet.moreCount;
    fill(this.view, "more-count", words.more(sheet.moreCount));
    this.list("bring", sheet.bring.map((id) => this.item(id)));
    this.list("own", sheet.own.map((id) => this.item(id)));
    slot(this.view, "own-title").hidden = !sheet.own.length;
    const off = this.app.state.takenOff();
    this.list("off", off.map((id) => this.offItem(id)));
    slot(this.view, "off-fold").hidden = !off.length;
    slot(this.view, "start-hint").hidden = this.app.state.kept.taken.length > 0;
    this.showPaper();
  }

  private list(name: string, parts: HTMLElement[]): void {
    empty(slot(this.view, name));
    put(this.view, name, parts);
  }

  /** A box that says how the sheet prints. */
  private tick(name: "large" | "told" | "back"): void {
    const box = this.view.querySelector<HTMLInputElement>(`#planner-${name}`) as HTMLInputElement;
    box.checked = this.app.state.kept[name];
    box.addEventListener("change", () => {
      this.app.state.kept[name] = box.checked;
      this.showPaper();
    });
  }

  /** Grave cautions open the sheet; the others stand below the questions. */
  private showCautions(): void {
    const all = cautions(this.app);
    put(this.view, "grave", all.grave);
    if (all.grave.length) addEmergency(this.app, slot(this.view, "grave"));
    put(this.view, "cautions", all.other);
    put(this.view, "notes", notes(this.app.state));
    slot(this.view, "notes-part").hidden = slot(this.view, "notes").hidden;
    slot(this.view, "mind").hidden = !all.other.length;
  }

  private showPaper(): void {
    const long = this.paper.show();
    fill(this.view, "long", long ? words.tooLong(this.app.state.kept.large) : "");
    fill(this.view, "stars", words.stars(this.app.state.starred().length));
  }

  private section(section: Section, kind = ""): HTMLElement {
    const part = make("section", "", `section ${kind}`.trim());
    const list = make(kind ? "ol" : "ul", "", "prompts");
    part.appendChild(make("h3", section.title));
    for (const id of section.prompts) list.appendChild(this.item(id));
    part.appendChild(list);
    return part;
  }

  /** The questions below the first ones. On a phone many of them are folded, which says nothing of what prints. */
  private others(sections: Section[]): HTMLElement[] {
    const count = sections.reduce((n, g) => n + g.prompts.length, 0);
    if (!count) return [];
    const part = clone("part-others") as HTMLDetailsElement;
    fill(part, "count", words.others(count));
    put(part, "by-whom", sections.map((g) => this.section(g)));
    const before = this.view.querySelector<HTMLDetailsElement>(".others"); // what is seen, as an event of it may come late
    part.open = before ? before.open : count < FEW || !matchMedia(NARROW).matches;
    return [part];
  }

  /** A question with its star; behind a fold why it is there, and what can be done with it. */
  private item(id: string): HTMLElement {
    const state = this.app.state;
    const li = promptItem(this.app, id, "part-asking");
    const ask = state.ask(id);
    fill(li, "since", since(state, id));
    const star = act(li, "star", () => this.star(li, id));
    star.setAttribute("aria-pressed", String(state.isStarred(id)));
    li.classList.toggle("starred", state.isStarred(id));
    const off = act(li, "off", () => {
      const next = this.neighbour(off);
      if (state.kept.own.some((o) => o.id === id)) state.removeOwn(id);
      else state.pick(id, false);
      this.anew(next, "off", words.takenOff(ask));
    });
    put(li, "came", cameFrom(state, id).map((why) => make("p", why)));
    const up = act(li, "up", () => this.move(id, -1));
    const down = act(li, "down", () => this.move(id, 1));
    off.setAttribute("data-for", id);
    for (const named of [star, off, up, down].concat(this.tieWords(li, id))) named.appendChild(unseen(words.about(ask)));
    li.setAttribute("data-prompt", id);
    return li;
  }

  private move(id: string, by: 1 | -1): void {
    const moved = move(this.app.state, id, by);
    this.anew(id, by < 0 ? "up" : "down", words.moved(moved, by));
  }

  /** Ties the field for own words, and gives what has to be told apart by the question. */
  private tieWords(tools: HTMLElement, id: string): HTMLElement[] {
    const field = tools.querySelector("textarea") as HTMLTextAreaElement;
    field.id = `words-${id.replace(" ", "-")}`;
    const label = tools.querySelector("label") as HTMLLabelElement;
    label.htmlFor = field.id;
    field.value = this.app.state.ask(id);
    tieWords(field, MOST_ASKED);
    const keep = act(tools, "reword", () => {
      const ask = oneLine(field.value);
      const long = tooMuch(ask, MOST_ASKED);
      if (long) return this.refuse(field, long);
      reword(this.app.state, id, ask);
      this.anew(id, "adjust", words.reworded(this.app.state.ask(id)));
    });
    return [label, keep];
  }

  /** Stars a question, which goes among the first ones, or takes its star away. */
  private star(li: HTMLElement, id: string): void {
    const state = this.app.state;
    if (state.isStarred(id)) state.unstar(id);
    else if (!state.star(id)) {
      fill(li, "note", words.enoughStars);
      return this.app.say(words.enoughStars);
    }
    this.anew(id, "star", words.stars(state.starred().length));
  }

  /** The prompt whose button the focus moves to once this one is gone. */
  private neighbour(off: HTMLElement): string {
    const all = Array.from(this.view.querySelectorAll<HTMLElement>("[data-for]"));
    const at = all.indexOf(off);
    const next = all[at + 1] || all[at - 1];
    return next ? (next.getAttribute("data-for") as string) : "";
  }

  /** Makes the lists anew and puts the focus back on a tool of a prompt. */
  private anew(id: string, tool: Tool, said: string): void {
    this.showAll();
    const li = Array.from(this.view.querySelectorAll<HTMLElement>("[data-prompt]")).find((one) => one.getAttribute("data-prompt") === id);
    if (li && tool !== "star" && tool !== "off") (slot(li, "adjust").parentElement as HTMLDetailsElement).open = true;
    const found = li && (tool === "adjust" || tool === "off" ? slot(li, "adjust") : li.querySelector<HTMLElement>(`[data-act="${tool}"]`));
    const fold = found && found.closest<HTMLDetailsElement>(".others");
    if (fold) fold.open = true;
    (found || slot(this.view, "focus")).focus();
    this.app.say(said);
  }

  private offItem(id: string): HTMLElement {
    const ask = this.app.state.ask(id);
    const li = clone("part-off");
    fill(li, "ask", ask);
    const back = act(li, "back-on", () => {
      this.app.state.pick(id, true);
      this.anew(id, "off", words.putBack(ask));
    });
    back.appendChild(unseen(words.about(ask)));
    return li;
  }

  /** The count beside the field says why; it is said once more, and nothing that was written is lost. */
  private refuse(field: HTMLElement, why: string): void {
    field.focus();
    this.app.say(why);
  }

  private ownField(): HTMLTextAreaElement {
    return this.view.querySelector<HTMLTextAreaElement>("#planner-own") as HTMLTextAreaElement;
  }

  private addOwn(): void {
    const field = this.ownField();
    const add = slot(this.view, "add");
    const ask = oneLine(field.value);
    if (!ask) return showProblem(add, words.noOwn);
    const long = tooMuch(ask, MOST_ASKED);
    if (long) return this.refuse(field, long);
    hideProblem(add);
    if (!this.app.state.addOwn(ask)) return showProblem(add, words.enoughOwn);
    field.value = "";
    field.dispatchEvent(new Event("input"));
    this.showAll();
    this.app.say(words.added(ask));
    field.focus();
  }
}
