// The page that searches. What is typed stays on it: files of the site's own are all that it loads.

import { Asked, Found } from "../find/rank";
import { Signs } from "../find/signs";
import { clone, empty, slot } from "../page/dom";
import { takeFragment } from "../page/fragment";
import { DataSearch } from "../types/publish";
import { Files } from "./files";
import { shown } from "./shown";

/** How long after the last letter the number of places is told, so that a screen reader is not talked over. */
const TELL = 700;

/** How long after the last letter a question is kept, which takes longer in some browsers than to find what is asked. */
const KEEP = 300;

/** How near a topic has to come to the best place to be offered. */
const AS_GOOD = 0.5;

class Search {
  private readonly field: HTMLInputElement;
  private readonly files: Files;
  private readonly signs: Signs;
  private readonly root: string;
  private said = ""; // the question that is shown
  private telling = 0;
  private keeping = 0;

  constructor(private readonly page: HTMLElement, private readonly data: DataSearch, form: HTMLFormElement) {
    this.field = form.querySelector("input") as HTMLInputElement;
    this.root = form.getAttribute("data-root") as string;
    this.files = new Files(this.root + "search/");
    this.signs = new Signs(data.signs);
    this.field.addEventListener("input", () => this.ask(true));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.ask(false).then(() => this.toFirst());
    });
    slot(page, "found").addEventListener("click", () => this.keep()); // a link may lead away at once
    this.begin();
  }

  /** What was brought along, or what stood here before the reader went to a place that was found. */
  private begin(): void {
    const brought = takeFragment("#q=");
    const kept = history.state as { asked?: string } | null;
    const text = brought ? decoded(brought) : (cameBack() && kept && kept.asked) || "";
    this.field.value = text.slice(0, this.field.maxLength);
    if (text) void this.ask(false);
    else this.field.focus({ preventScroll: true });
  }

  private load(names: string[]): Promise<boolean> {
    return this.files.load(names).then(
      () => true,
      () => {
        this.say(this.data.say.lost);
        return false;
      },
    );
  }

  /** Shows what is found, once all that it needs is here. A sign is shown at once. */
  private async ask(typing: boolean): Promise<void> {
    const question = this.field.value.trim();
    this.said = question;
    clearTimeout(this.keeping);
    this.keeping = window.setTimeout(() => this.keep(), KEEP);
    slot(this.page, "browse").hidden = false;
    if (!question) {
      slot(this.page, "found").hidden = true;
      return;
    }
    this.showSigns(question);
    if (!(await this.load(["first.js"])) || this.said !== question) return;
    const index = this.files.index;
    if (!index) return;
    this.showSigns(question);
    const asked = index.asked(question, typing);
    if (!(await this.load(index.lacking(asked))) || this.said !== question) return;
    const found = index.find(asked, 3 * this.data.most);
    const places = found.filter((f) => !index.topic(f.unit)).slice(0, this.data.most);
    const best = found[0] ? found[0].score : 0;
    const topic = found.find((f) => index.topic(f.unit) && f.score >= AS_GOOD * best);
    const pages = (topic ? [...places, topic] : places).map((f) => index.page(f.unit));
    if (!(await this.load(pages.map((p) => p + ".js"))) || this.said !== question) return;
    this.show(asked, places, topic);
  }

  private show(asked: Asked, places: Found[], topic: Found | undefined): void {
    const index = this.files.index;
    if (!index) return;
    const says = index.says(asked);
    const list = slot(this.page, "list");
    const rows = document.createDocumentFragment();
    for (const f of places) {
      const page = index.page(f.unit);
      const text = this.files.text(page);
      const unit = text && text.units[index.place(f.unit).nth];
      if (text && unit) rows.appendChild(shown(index, says, this.root, page, text, unit, f));
    }
    empty(list);
    list.appendChild(rows);
    this.offer(topic);
    const taken = slot(this.page, "taken");
    taken.hidden = !asked.taken.length;
    taken.textContent = asked.taken.map(([word, instead]) => this.data.say.taken.replace("{word}", word).replace("{for}", instead)).join(" ");
    const none = slot(this.page, "says");
    none.hidden = places.length > 0;
    none.textContent = places.length ? "" : this.found(0);
    slot(this.page, "found").hidden = false;
    slot(this.page, "browse").hidden = places.length > 0;
    this.tell(this.found(places.length));
  }

  private found(n: number): string {
    return this.data.say.found[n] || "";
  }

  /** A topic whose questions are about the same is offered to be taken, through the safety screen as from any other page. */
  private offer(topic: Found | undefined): void {
    const place = slot(this.page, "topic");
    place.hidden = !topic;
    const index = this.files.index;
    if (!topic || !index) return;
    const text = this.files.text(index.page(topic.unit));
    const link = slot(place, "topic-link") as HTMLAnchorElement;
    link.textContent = text ? text.title : "";
    link.href = `${this.root}prepare/index.html#take=${index.topic(topic.unit)}`;
  }

  private showSigns(question: string): void {
    const index = this.files.index;
    const named = this.signs.named(question, (word) => !!index && index.table.term(word) < 0);
    const place = slot(this.page, "cautions");
    if (place.getAttribute("data-signs") !== named.join(" ")) {
      place.setAttribute("data-signs", named.join(" "));
      empty(place);
      for (const id of named) place.appendChild(clone(`sign-${id}`));
    }
    slot(this.page, "signs").hidden = !named.length;
    slot(this.page, "crisis").hidden = !named.some((id) => (this.data.crisis || []).includes(id));
    if (named.length) slot(this.page, "found").hidden = false;
  }

  /** To the first that is shown: a caution stays before the reader until it is passed by. */
  private toFirst(): void {
    const signs = slot(this.page, "signs");
    const first = slot(this.page, "list").querySelector("a");
    if (!signs.hidden) signs.focus();
    else if (first) first.focus();
  }

  /** So that a reader who comes back finds what was asked. It is in this tab's history alone. */
  private keep(): void {
    clearTimeout(this.keeping);
    if (this.data.shared) return;
    try {
      history.replaceState({ asked: this.said }, "");
    } catch {
      // a viewer that keeps no history
    }
  }

  private tell(text: string): void {
    clearTimeout(this.telling);
    this.telling = window.setTimeout(() => (slot(this.page, "status").textContent = text), TELL);
  }

  private say(text: string): void {
    const place = slot(this.page, "says");
    place.textContent = text;
    place.hidden = false;
    slot(this.page, "found").hidden = false;
    this.tell(text);
  }
}

/** Whether the reader came back to the page, or loaded it anew; a link to it begins afresh. */
function cameBack(): boolean {
  const how = performance.getEntriesByType("navigation")[0] as PerformanceNavigationTiming | undefined;
  return !!how && how.type !== "navigate";
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

const form = document.getElementById("search");
const data = document.getElementById("search-data");
const main = document.getElementById("main");
if (form && data && main) new Search(main, JSON.parse(data.textContent as string) as DataSearch, form as HTMLFormElement);
