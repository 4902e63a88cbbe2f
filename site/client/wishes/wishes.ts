// The page on which a reader marks what matters. Every word that it can show is
// in the page already; the script shows what belongs to the marks.

import { act, inputs, slot, ticked } from "../page/dom";
import { look, Pulls } from "./pulls";

class Wishes {
  private readonly data: Pulls;

  constructor(private readonly root: HTMLElement, data: string) {
    this.data = JSON.parse(data) as Pulls;
    for (const input of inputs(root)) input.addEventListener("change", () => this.marked(input));
    act(root, "clear", () => this.clear());
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
    if (input && input.parentElement) input.parentElement.appendChild(problem);
  }

  private clear(): void {
    const all = inputs(this.root);
    for (const input of all) input.checked = false;
    this.complain(null);
    if (all[0]) all[0].focus(); // before the button that was pressed goes away
    this.show();
  }

  private show(): void {
    const marked = ticked(this.root);
    const found = look(this.data, marked);
    const said = slot(this.root, "said");
    if (said.textContent !== found.say) said.textContent = found.say;
    const asks: string[] = [];
    for (const part of this.parts("data-pull")) {
      part.hidden = found.shown.indexOf(part.id) < 0;
      if (!part.hidden) asks.push(...Array.from(part.querySelectorAll(".ask"), (a) => a.textContent || ""));
    }
    for (const part of this.parts("data-wish")) part.hidden = marked.indexOf(part.getAttribute("data-wish") || "") < 0;
    slot(this.root, "one-by-one").hidden = !marked.length;
    slot(this.root, "clear").hidden = !marked.length;
    slot(this.root, "copy").hidden = !asks.length;
    const text = slot(this.root, "text") as HTMLTextAreaElement;
    text.value = asks.join("\n");
    text.rows = Math.min(asks.length * 2, 12);
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
  root.classList.add("live");
}

start();
