// The page on which a reader marks what matters. Every word that it can show is
// in the page already, but for the picture's; the script shows what belongs to the marks.

import { act, empty, inputs, slot, ticked } from "../page/dom";
import { tie, posts, wishes } from "../words/words";
import { draw } from "./draw";
import { Picture, picture } from "./picture";
import { look, Pulls } from "./pulls";

class Wishes {
  private readonly data: Pulls;

  constructor(private readonly root: HTMLElement, data: string) {
    this.data = JSON.parse(data) as Pulls;
    for (const input of inputs(root)) input.addEventListener("change", () => this.marked(input));
    act(root, "clear", () => this.clear());
    act(root, "see", () => this.see());
    this.openOnPaper();
    this.show();
  }

  private marked(input: HTMLInputElement): void {
    const refused = ticked(this.root).length > this.data.most;
    if (refused) input.checked = false;
    this.complain(refused ? input : null);
    this.show();
  }

  /** Says beside a wish why it cannot be marked, or takes that back. */
  private complain(input: HTMLInputElement | null): void {
    const problem = slot(this.root, "problem");
    problem.textContent = input ? this.data.say.full : "";
    problem.hidden = !input;
    const row = input && input.closest("li");
    if (row) row.appendChild(problem);
  }

  private clear(): void {
    const all = inputs(this.root);
    for (const input of all) input.checked = false;
    this.complain(null);
    this.mine.open = true;
    if (all[0]) all[0].focus(); // before the button that was pressed goes away
    this.show();
  }

  /** Folds the list, so that what pulls stands right below it. */
  private see(): void {
    this.mine.open = false;
    const found = document.getElementById("pulls-found");
    if (!found) return;
    found.focus({ preventScroll: true });
    found.scrollIntoView();
  }

  private get mine(): HTMLDetailsElement {
    return slot(this.root, "mine") as HTMLDetailsElement;
  }

  private show(): void {
    const marked = ticked(this.root);
    const found = look(this.data, marked);
    const said = slot(this.root, "said");
    if (said.textContent !== found.say) said.textContent = found.say;
    slot(this.root, "count").textContent = wishes(marked.length, this.data.most);
    this.showPicture(marked);
    this.showPulls(found.shown);
    for (const part of this.parts("data-wish")) part.hidden = marked.indexOf(part.getAttribute("data-wish") || "") < 0;
    slot(this.root, "one-by-one").hidden = !marked.length;
    slot(this.root, "moves").hidden = !marked.length;
  }

  private showPicture(marked: string[]): void {
    const shown = picture(this.data.sets, marked);
    for (const name of ["picture", "key"]) slot(this.root, name).hidden = !shown;
    slot(this.root, "many").hidden = !!shown || !marked.length;
    if (!shown) return;
    const drawn = slot(this.root, "drawn");
    empty(drawn);
    for (const part of draw(shown, this.data.names)) drawn.appendChild(part);
    drawn.setAttribute("aria-label", this.told(shown));
    slot(this.root, "tie").hidden = !shown.ties.length;
    slot(this.root, "may-give").hidden = !shown.ties.some((t) => t.open);
    slot(this.root, "unsure").hidden = !shown.posts.some((p) => p.open);
  }

  /** The picture in words. */
  private told(shown: Picture): string {
    const name = (at: number): string => this.data.names[(shown.posts[at] || { id: "" }).id] || "";
    const ties = shown.ties.map((t) => tie(t.no, t.ends.map(name), t.open));
    return [posts(shown.posts.map((_, at) => name(at)))].concat(ties).join(" ");
  }

  /** Each conflict once, by its number in the picture. What an add-on gives and takes is said once for all. */
  private showPulls(shown: string[]): void {
    const asks: string[] = [];
    let no = 0;
    const alone = shown.length === 1; // it stands open
    slot(this.root, "open-one").hidden = shown.length < 2;
    for (const part of this.parts("data-pull")) {
      const was = !part.hidden;
      part.hidden = shown.indexOf(part.id) < 0;
      if (part.hidden) continue;
      const number = part.querySelector('[data-slot="no"]');
      if (number) number.textContent = `${++no}.`;
      const whole = part.querySelector<HTMLDetailsElement>(".whole");
      if (whole && !(was && alone)) whole.open = alone;
      asks.push(...Array.from(part.querySelectorAll(".ask"), (a) => a.textContent || ""));
    }
    for (const part of this.parts("data-addon")) {
      const of = (part.getAttribute("data-addon") || "").split(" ");
      part.hidden = !of.some((id) => shown.indexOf(id) >= 0);
    }
    slot(this.root, "copy").hidden = !asks.length;
    const text = slot(this.root, "text") as HTMLTextAreaElement;
    text.value = asks.join("\n");
    text.rows = Math.min(asks.length * 2, 12);
  }

  /** On paper nothing that was marked stays folded. */
  private openOnPaper(): void {
    let folded: HTMLDetailsElement[] = [];
    window.addEventListener("beforeprint", () => {
      folded = Array.from(this.root.querySelectorAll<HTMLDetailsElement>(".mine, .whole, .one-by-one")).filter((d) => !d.open);
      for (const d of folded) d.open = true;
    });
    window.addEventListener("afterprint", () => folded.forEach((d) => (d.open = false)));
  }

  private parts(name: string): HTMLElement[] {
    return Array.from(this.root.querySelectorAll<HTMLElement>(`[${name}]`));
  }
}

function start(): void {
  const root = document.getElementById("pulls");
  const data = document.getElementById("pulls-data");
  if (!root || !data) return;
  new Wishes(root, data.textContent || "");
  for (const part of Array.from(root.querySelectorAll<HTMLElement>("[data-live]"))) part.hidden = false;
  for (const part of Array.from(root.querySelectorAll<HTMLElement>("[data-plain]"))) part.hidden = true;
  (slot(root, "one-by-one") as HTMLDetailsElement).open = false;
  root.classList.add("live");
}

start();
