// The sheet on paper. It is built apart from the screen, black on white, and
// shown to the printer only. Its front is made to fill one side and no more, or
// two in large type; its back, if the reader wants one, begins a page of its own.

import { about, onSheet } from "../sheet/about";
import { askWhole } from "../state/amounts";
import { App } from "../state/app";
import { cautions } from "../sheet/caution";
import { Section, answered, asked, forPaper } from "../sheet/compose";
import { Ground } from "./ground";
import { need } from "./need";
import { clone, empty, fill, make, put, slot } from "../page/dom";
import { notes, worded } from "../sheet/notes";
import { entry } from "../walk/walker";
import * as words from "../words/words";

/** From the roomiest to the tightest; the style sheet says what each one is. */
const DENSITIES = ["open", "roomy", "snug", "firm", "plain", "close", "tight", "packed", "packed full"];
const LARGE = ["large", "large close", "large tight"];

/** The most lines for notes below the questions, where there is room. */
const MOST_RULES = 6;

/** How far apart lines to write on may stand, and by how much more at a time; in millimeters. */
const WIDEST = 11;
const STEP = 0.5;

/** The height of a Letter page inside its margins, less a little for rounding. Letter
 * is the lower page and A4 the narrower one (the style sheet measures at its width),
 * so what fits this fits both. */
const PAGE_HEIGHT = (279.4 - 2 * 12 - 2) * (96 / 25.4);

/** What two pages hold, less a question with its lines, which may not be cut in two between them. */
const TWO_PAGES = 2 * PAGE_HEIGHT - 220;

export class Paper {
  private readonly place = make("div", "", "sheet-paper");

  private ground: Ground | undefined;
  private drawnFor = "";

  constructor(private readonly app: App) {
    document.body.appendChild(this.place);
  }

  /** Builds the paper anew and readies the page to print it; tells whether its front is too long. */
  show(): boolean {
    const kept = this.app.state.kept;
    const front = this.front();
    this.ready([front]);
    this.bringDrawings();
    const long = !this.fit(front, kept.large);
    if (kept.back) this.place.appendChild(this.visit()); // behind one side of paper it is the other
    if (kept.told && kept.taken.length) this.place.appendChild(this.answers());
    return long;
  }

  /** Readies the page to print what was said at the visit, and no more. */
  showVisit(): void {
    this.ready([this.visit()]);
    this.place.className = `sheet-paper ${this.app.state.kept.large ? "large" : "roomy"}`;
  }

  /** Away from the sheet the page prints as it stands. */
  hide(): void {
    empty(this.place);
    document.documentElement.classList.remove("sheet-ready");
  }

  private ready(pages: HTMLElement[]): void {
    empty(this.place);
    for (const page of pages) this.place.appendChild(page);
    document.documentElement.classList.add("sheet-ready");
  }

  /** Asks for the drawings of the topics taken, and puts the paper together again once they are here. The paper never waits for them. */
  private bringDrawings(): void {
    const taken = this.app.state.kept.taken;
    if (this.drawnFor === taken.join()) return;
    this.drawnFor = taken.join();
    need("keelpathGround").then((ground) =>
      ground.ready(...taken).then(() => {
        this.ground = ground;
        if (this.place.querySelector(".front")) this.show();
      }),
    ).catch(() => undefined);
  }

  private front(): HTMLElement {
    const state = this.app.state;
    const sheet = forPaper(state);
    const edition = state.data.edition;
    const warn = cautions(this.app);
    const page = clone("view-paper");
    fill(page, "made", words.made(new Date()));
    fill(page, "edition", [edition.clinic, edition.phone].filter((s) => s).join(", "));
    fill(page, "endorsement", edition.endorsement);
    put(page, "grave", warn.grave);
    fill(page, "about", about(state).join(" "));
    slot(page, "about-part").hidden = slot(page, "about").hidden;
    put(page, "drawing", this.ground ? this.ground.sheet(state, onSheet(state)) : []);

    put(page, "first", sheet.first.map((id) => this.firstItem(id)));
    slot(page, "first-title").hidden = !sheet.first.length;
    const own = { title: words.ownQuestions, prompts: sheet.own };
    put(page, "rest", sheet.sections.concat(own).filter((section) => section.prompts.length).map((section) => this.section(section)));

    put(page, "cautions", warn.other);
    put(page, "notes", notes(state).map(paperNote));
    put(page, "bring", sheet.bring.map((id) => make("span", state.ask(id))));
    fill(page, "phone", edition.phone && words.clinicPhone(edition.phone));
    fill(page, "version", [edition.name, edition.version].filter((s) => s).join(", "));
    return page;
  }

  private firstItem(id: string): HTMLElement {
    const li = clone("paper-first");
    fill(li, "ask", askWhole(this.app.state, id));
    return li;
  }

  private section(section: Section): HTMLElement {
    const part = clone("paper-section");
    fill(part, "title", section.title);
    put(part, "asks", section.prompts.map((id) => {
      const li = make("li", askWhole(this.app.state, id));
      li.dir = "auto";
      return li;
    }));
    return part;
  }

  /** What the reader answered, tree by tree. It never stands on the front. */
  private answers(): HTMLElement {
    const page = clone("paper-answers");
    for (const one of answered(this.app.state)) {
      const list = make("ul");
      for (const line of one.lines) {
        const li = make("li", `${line.asked} `);
        li.appendChild(make("b", line.said));
        list.appendChild(li);
      }
      page.appendChild(make("p", one.title, "title-line"));
      page.appendChild(list);
    }
    return page;
  }

  private visit(): HTMLElement {
    const state = this.app.state;
    const visit = state.kept.visit;
    const page = clone("paper-visit");
    const replies = asked(state).filter((id) => entry(visit.marks, id) || entry(visit.replies, id));
    put(page, "replies", replies.map((id) => {
      const li = make("li");
      li.appendChild(make("bdi", askWhole(state, id)));
      li.appendChild(document.createTextNode(" "));
      li.appendChild(make("b", words.reply(entry(visit.marks, id), entry(visit.replies, id))));
      return li;
    }));
    for (const name of ["decided", "tries", "meet"] as const) {
      fill(page, name, visit[name]);
      slot(page, `${name}-rules`).hidden = !!visit[name];
    }
    slot(page, "replies-rules").hidden = replies.length > 0;
    return page;
  }

  /** Takes the roomiest density that fits, then fills what is left with lines to write on. */
  private fit(front: HTMLElement, large: boolean): boolean {
    const rules = slot(front, "rules");
    const title = slot(front, "rules-title");
    const fitsNow = (): boolean => front.offsetHeight <= (large ? TWO_PAGES : PAGE_HEIGHT);
    title.hidden = true;
    this.place.style.removeProperty("--line");
    const all = large ? LARGE : DENSITIES;
    const roomiest = (): number => all.findIndex((density) => {
      this.place.className = `sheet-paper measuring ${density}`;
      return fitsNow();
    });
    const fits = (this.ground ? this.ground.fit(slot(front, "drawing"), roomiest) : roomiest()) >= 0;
    if (fits) this.grow(fitsNow);
    while (fits && rules.childElementCount < MOST_RULES) {
      title.hidden = false;
      const last = rules.appendChild(make("li"));
      if (fitsNow()) continue;
      rules.removeChild(last);
      title.hidden = !rules.childElementCount;
      break;
    }
    this.place.classList.remove("measuring");
    this.place.classList.toggle("fits", fits && !large);
    return fits;
  }

  /** Gives the lines below each question as much of the room that is left as a hand can use. */
  private grow(fitsNow: () => boolean): void {
    const line = parseFloat(getComputedStyle(this.place).getPropertyValue("--line"));
    for (let more = line + STEP; more <= WIDEST; more += STEP) {
      this.place.style.setProperty("--line", `${more}mm`);
      if (fitsNow()) continue;
      this.place.style.setProperty("--line", `${more - STEP}mm`);
      return;
    }
  }
}

/** A card on paper: its title, and its text behind it. */
function paperNote(card: HTMLElement): HTMLElement {
  const [title, text] = worded(card);
  const note = make("p");
  note.appendChild(make("b", title));
  note.appendChild(document.createTextNode(` ${text}`));
  return note;
}
