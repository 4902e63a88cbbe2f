// The sheet on paper. It is built apart from the screen, black on white, and
// shown to the printer only. It is made to fill one side and no more.

import { App } from "./app";
import { cautions } from "./caution";
import { askOf, forPaper } from "./compose";
import { clone, empty, fill, make, put, slot } from "./dom";
import * as words from "./words";

/** From 14 point with wide gaps down to 12 point with small ones. The style sheet says what each one is. */
const DENSITIES = ["open", "roomy", "plain", "close", "tight", "packed"];

/** Lines to write on: never fewer than the first number; more where there is room. */
const RULES = [4, 9] as const;

/** The height of a Letter page inside its margins, less a little for rounding. Letter
 * is the lower page and A4 the narrower one (the style sheet measures at its width),
 * so what fits this fits both. */
const PAGE_HEIGHT = (279.4 - 2 * 12 - 2) * (96 / 25.4);

export class Paper {
  private readonly place = make("div", "", "sheet-paper");

  constructor(private readonly app: App) {
    document.body.appendChild(this.place);
  }

  /** Builds the paper anew and readies the page to print it; tells whether it is too long for one side. */
  show(): boolean {
    const page = this.build();
    empty(this.place);
    this.place.appendChild(page);
    document.documentElement.classList.add("sheet-ready");
    return !this.fit(slot(page, "rules"));
  }

  /** Away from the sheet the page prints as it stands. */
  hide(): void {
    empty(this.place);
    document.documentElement.classList.remove("sheet-ready");
  }

  private build(): HTMLElement {
    const sheet = forPaper(this.app.state);
    const edition = this.app.state.data.edition;
    const warn = cautions(this.app);
    const page = clone("view-paper");
    fill(page, "made", words.made(new Date()));
    fill(page, "edition", [edition.clinic, edition.phone].filter((s) => s).join(", "));
    fill(page, "endorsement", edition.endorsement);
    put(page, "grave", warn.grave);

    const table = slot(page, "asks");
    this.addGroup(table, words.starred, sheet.starred, "first");
    for (const group of sheet.groups) this.addGroup(table, group.title, group.prompts, "");
    this.addGroup(table, words.ownQuestions, sheet.own, "");

    put(page, "cautions", warn.other);
    put(page, "bring", sheet.bring.map((id) => make("span", askOf(this.app.state, id))));
    fill(page, "emergency", edition.emergency);
    fill(page, "version", [edition.name, edition.version].filter((s) => s).join(", "));
    return page;
  }

  private addGroup(table: HTMLElement, title: string, prompts: string[], kind: string): void {
    if (!prompts.length) return;
    const body = clone("paper-group");
    body.className = kind;
    fill(body, "title", title);
    for (const id of prompts) {
      const row = clone("paper-row");
      fill(row, "ask", askOf(this.app.state, id));
      body.appendChild(row);
    }
    table.appendChild(body);
  }

  /** Takes the roomiest density that fits, then fills what is left with lines to write on. */
  private fit(rules: HTMLElement): boolean {
    const line = (): Node => rules.appendChild(make("li"));
    while (rules.childElementCount < RULES[0]) line();
    this.place.classList.add("measuring");
    const fits = DENSITIES.some((density) => {
      this.place.className = `sheet-paper measuring ${density}`;
      return this.fitsNow();
    });
    while (fits && rules.childElementCount < RULES[1]) {
      const last = line();
      if (this.fitsNow()) continue;
      rules.removeChild(last);
      break;
    }
    this.place.classList.remove("measuring");
    return fits;
  }

  private fitsNow(): boolean {
    return this.place.offsetHeight <= PAGE_HEIGHT;
  }
}
