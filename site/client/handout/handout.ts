// The page on which invitations are printed. Every word of them is in the page already; the script
// puts in the topics that were picked, their address and its code. Nothing is kept and nothing is sent.

import { invitation, typed } from "../invite/address";
import { path, side, square } from "../invite/square";
import { act, empty, inputs, make, slot } from "../page/dom";

class Handout {
  private readonly at: string;
  private readonly most: number;
  private readonly sheet: HTMLElement;
  /** The boxes that are checked, in the order in which they were. */
  private picked: HTMLInputElement[] = [];

  constructor(private readonly root: HTMLElement) {
    this.at = root.getAttribute("data-address") as string;
    this.most = Number(root.getAttribute("data-most"));
    this.sheet = slot(root, "handout");
    for (const input of inputs(root)) input.addEventListener("change", () => this.changed(input));
    this.picked = inputs(root).filter((i) => i.type === "checkbox" && i.checked); // what a browser brought back
    act(root, "print", () => window.print());
    this.show();
  }

  private changed(input: HTMLInputElement): void {
    if (input.type === "checkbox") this.pick(input);
    this.show();
  }

  private pick(box: HTMLInputElement): void {
    const full = box.checked && this.picked.length >= this.most;
    if (full) box.checked = false;
    slot(this.root, "full").hidden = !full;
    this.picked = this.picked.filter((b) => b !== box);
    if (box.checked) this.picked.push(box);
  }

  private show(): void {
    const ids = this.picked.map((b) => b.value);
    const kind = inputs(this.root).find((i) => i.type === "radio" && i.checked);
    if (kind) this.sheet.setAttribute("data-kind", kind.value);
    this.each("[data-if]", (part) => (part.hidden = !this.holds(part.getAttribute("data-if") as string)));
    this.each('[data-slot="picked"]', (list) => this.list(list));
    const at = this.at.replace("https://", "");
    this.each('[data-slot="typed"]', (place) => broken(place, at + typed(ids)));
    const address = invitation(this.at, ids);
    broken(slot(this.root, "leads"), address);
    this.code(address);
    this.raise();
  }

  /** Long titles at a long address have room on a higher card. */
  private raise(): void {
    const cards = Array.from(this.sheet.querySelectorAll<HTMLElement>(".card"));
    const first = cards[0];
    if (!first) return;
    for (const high of ["", "high", "highest"]) {
      for (const card of cards) card.className = `card ${high}`;
      if (first.scrollHeight <= first.clientHeight) return;
    }
  }

  private holds(when: string): boolean {
    const n = this.picked.length;
    return { none: n === 0, some: n > 0, one: n === 1, several: n > 1 }[when] || false;
  }

  private list(list: HTMLElement): void {
    empty(list);
    for (const box of this.picked) list.appendChild(make("li", title(box)));
  }

  /** Without a code there is nothing to print. */
  private code(address: string): void {
    const code = square(address);
    slot(this.root, "too-long").hidden = !!code;
    this.sheet.hidden = !code;
    (this.root.querySelector('[data-act="print"]') as HTMLButtonElement).disabled = !code;
    if (!code) return;
    const all = side(code);
    const drawn = path(code);
    for (const picture of Array.from(this.sheet.querySelectorAll<SVGElement>('[data-slot="code"]'))) {
      picture.setAttribute("viewBox", `0 0 ${all} ${all}`);
      picture.style.setProperty("--modules", String(all));
      (picture.firstElementChild as Element).setAttribute("d", drawn);
    }
  }

  private each(selector: string, does: (part: HTMLElement) => void): void {
    Array.from(this.sheet.querySelectorAll<HTMLElement>(selector)).forEach(does);
  }
}

function title(box: HTMLInputElement): string {
  return (box.nextElementSibling as Element).textContent as string;
}

/** Shows an address, which goes on in the next line behind a slash. */
function broken(place: HTMLElement, address: string): void {
  empty(place);
  for (const part of address.match(/[^/,]+[/,]*/g) || []) place.appendChild(make("span", part));
}

function start(): void {
  const root = document.getElementById("invite");
  if (!root) return; // an edition without an address
  new Handout(root);
  root.hidden = false;
  document.documentElement.classList.add("handing-out");
}

start();
