// The sheet on the screen: look it over, star, take off, add, print.

import { App } from "./app";
import { addEmergency, cautions } from "./caution";
import { Group, askOf, compose } from "./compose";
import { act, clone, empty, fill, make, put, slot, submit, unseen } from "./dom";
import { Paper } from "./paper";
import { showProblem } from "./problem";
import { promptItem, promptOf } from "./prompts";
import * as words from "./words";

export function sheetView(app: App, paper: Paper): HTMLElement {
  const view = clone("view-sheet");
  new SheetView(app, paper, view).showAll();
  return view;
}

class SheetView {
  constructor(
    private readonly app: App,
    private readonly paper: Paper,
    private readonly view: HTMLElement,
  ) {
    const details = slot(view, "more") as HTMLDetailsElement;
    details.open = app.state.moreOpen;
    details.addEventListener("toggle", () => {
      app.state.moreOpen = details.open;
      this.showPaper();
    });
    submit(slot(view, "add"), () => this.addOwn());
    act(view, "print", () => window.print());
    act(view, "topics", () => app.go({ view: "topics" }));
    this.showCautions();
  }

  showAll(): void {
    const sheet = compose(this.app.state);
    this.list("groups", sheet.groups.map((g) => this.group(g)));
    this.list("folded", sheet.more.map((g) => this.group(g)));
    slot(this.view, "more").hidden = !sheet.moreCount;
    fill(this.view, "more-count", words.more(sheet.moreCount));
    this.list("bring", sheet.bring.map((id) => this.item(id)));
    this.list("own", this.app.state.own.map((o) => this.ownItem(o.id)));
    const off = this.app.state.takenOff();
    this.list("off", off.map((id) => this.offItem(id)));
    slot(this.view, "off-fold").hidden = !off.length;
    slot(this.view, "start-hint").hidden = this.app.state.taken.length > 0;
    this.showPaper();
  }

  private list(name: string, parts: HTMLElement[]): void {
    empty(slot(this.view, name));
    put(this.view, name, parts);
  }

  /** Grave cautions open the sheet; the others stand below the questions. */
  private showCautions(): void {
    const all = cautions(this.app);
    put(this.view, "grave", all.grave);
    if (all.grave.length) addEmergency(this.app, slot(this.view, "grave"));
    put(this.view, "cautions", all.other);
    slot(this.view, "mind").hidden = !all.other.length;
  }

  private showPaper(): void {
    const long = this.paper.show();
    fill(this.view, "long", long ? words.twoPages : "");
    fill(this.view, "stars", words.stars(this.app.state.starred().length));
  }

  private group(group: Group): HTMLElement {
    const section = make("section", "", "group");
    const list = make("ul", "", "prompts");
    section.appendChild(make("h3", group.title));
    for (const id of group.prompts) list.appendChild(this.item(id));
    section.appendChild(list);
    return section;
  }

  private item(id: string): HTMLElement {
    const li = promptItem(this.app, id);
    this.addTools(li, id, () => {
      this.app.state.pick(id, false);
      this.app.say(words.takenOff(promptOf(this.app, id).ask));
    });
    return li;
  }

  private ownItem(id: string): HTMLElement {
    const ask = askOf(this.app.state, id);
    const li = make("li", "", "prompt");
    li.appendChild(make("p", ask, "ask"));
    this.addTools(li, id, () => {
      this.app.state.removeOwn(id);
      this.app.say(words.takenOff(ask));
    });
    return li;
  }

  private addTools(li: HTMLElement, id: string, takeOff: () => void): void {
    const tools = clone("part-tools");
    const ask = askOf(this.app.state, id);
    const star = act(tools, "star", () => this.star(li, star, id));
    star.appendChild(unseen(words.about(ask)));
    this.showStar(li, star, id);
    const off = act(tools, "off", () => {
      const next = this.neighbour(off);
      takeOff();
      this.showAll();
      this.focus(next);
    });
    off.setAttribute("data-for", id);
    off.appendChild(unseen(words.about(ask)));
    li.appendChild(tools);
  }

  private star(li: HTMLElement, button: HTMLElement, id: string): void {
    const state = this.app.state;
    const note = slot(li, "note");
    note.hidden = true;
    if (state.isStarred(id)) state.unstar(id);
    else if (!state.star(id)) {
      note.textContent = words.enoughStars;
      note.hidden = false;
      return this.app.say(words.enoughStars);
    }
    this.showStar(li, button, id);
    this.showPaper();
    this.app.say(words.stars(state.starred().length));
  }

  private showStar(li: HTMLElement, button: HTMLElement, id: string): void {
    const on = this.app.state.isStarred(id);
    button.setAttribute("aria-pressed", String(on));
    li.classList.toggle("starred", on);
  }

  /** The prompt whose button the focus moves to once this one is gone. */
  private neighbour(off: HTMLElement): string {
    const all = Array.from(this.view.querySelectorAll<HTMLElement>("[data-for]"));
    const at = all.indexOf(off);
    const next = all[at + 1] || all[at - 1];
    return next ? (next.getAttribute("data-for") as string) : "";
  }

  private focus(id: string): void {
    const all = Array.from(this.view.querySelectorAll<HTMLElement>("[data-for]"));
    const button = all.find((b) => b.getAttribute("data-for") === id);
    (button || slot(this.view, "focus")).focus();
  }

  private offItem(id: string): HTMLElement {
    const ask = askOf(this.app.state, id);
    const li = clone("part-off");
    fill(li, "ask", ask);
    const back = act(li, "back-on", () => {
      this.app.state.pick(id, true);
      this.app.say(words.putBack(ask));
      this.showAll();
      this.focus(id);
    });
    back.appendChild(unseen(words.about(ask)));
    return li;
  }

  private addOwn(): void {
    const field = this.view.querySelector("textarea") as HTMLTextAreaElement;
    const ask = field.value.trim().replace(/\s+/g, " ");
    if (!ask) return showProblem(slot(this.view, "add"), words.noOwn);
    slot(this.view, "problem").hidden = true;
    this.app.state.addOwn(ask);
    field.value = "";
    this.showAll();
    this.app.say(words.added(ask));
    field.focus();
  }
}
