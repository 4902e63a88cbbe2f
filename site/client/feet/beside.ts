// Kinds of feet side by side, on the page of all kinds: two on a phone, up to four where there is room, each cut open and all on
// one ground at one scale. What it shows is taken from the page's own table, which stays as it is, and is all there is without script.

import { digits } from "../words/words";
import { cut } from "../page/cuts";
import { clone, empty, make, slot } from "../page/dom";
import { loadScript } from "../page/load";

/** What stands there first, from the simple to the moving; nothing follows from the order. */
const FIRST = ["solid-ankle", "carbon-spring", "multi-axis", "hydraulic-ankle"];

/** A row of the page's table: a kind of foot, with its cells. */
interface Kind {
  id: string;
  name: string;
  cells: HTMLElement[];
}

class Beside {
  private readonly kinds: Kind[];
  private readonly shown: Kind[];

  constructor(private readonly root: HTMLElement, rows: HTMLElement[]) {
    this.kinds = rows.filter((row) => !row.classList.contains("way")).map(kindOf);
    this.shown = FIRST.map((id, i) => this.kinds.find((k) => k.id === id) || (this.kinds[i] as Kind));
    this.head();
    this.rows();
    this.draw();
    root.hidden = false;
    loadScript(root.getAttribute("data-cuts") as string).then(() => this.draw(), () => undefined);
  }

  /** A list for each place, by which another kind is put there. */
  private head(): void {
    this.shown.forEach((kind, i) => {
      const th = clone("beside-kind").querySelector("th") as HTMLElement;
      const pick = th.querySelector("select") as HTMLSelectElement;
      for (const k of this.kinds) pick.appendChild(new Option(k.name, k.id, false, k === kind));
      slot(th, "number").textContent = digits(String(i + 1));
      pick.addEventListener("change", () => {
        this.shown[i] = this.kinds.find((k) => k.id === pick.value) as Kind;
        this.rows();
        this.draw();
      });
      slot(this.root, "kinds").appendChild(th);
    });
  }

  private rows(): void {
    const body = slot(this.root, "rows");
    empty(body);
    (this.shown[0] as Kind).cells.forEach((first, r) => {
      const tr = make("tr");
      const title = make("th", (first.querySelector(".row") as HTMLElement).textContent as string);
      title.setAttribute("scope", "row");
      tr.appendChild(title);
      for (const kind of this.shown) tr.appendChild(cellOf(kind.cells[r] as HTMLElement));
      body.appendChild(tr);
    });
  }

  private draw(): void {
    Array.from(this.root.querySelectorAll<HTMLElement>(".foot")).forEach((place, i) => {
      empty(place);
      const svg = cut((this.shown[i] as Kind).id);
      if (svg) place.appendChild(svg);
    });
  }
}

function kindOf(row: HTMLElement): Kind {
  const link = row.querySelector("th a") as HTMLAnchorElement;
  return { id: link.hash.slice(1), name: link.textContent as string, cells: Array.from(row.querySelectorAll("td")) };
}

/** A rating in words, which leads to its reason, and what it stands on. */
function cellOf(cell: HTMLElement): HTMLElement {
  const td = make("td");
  for (const part of Array.from(cell.querySelectorAll(".cell > a, .cell > .kind"))) {
    td.appendChild(part.cloneNode(true));
    td.appendChild(document.createTextNode(" "));
  }
  return td;
}

const root = document.querySelector<HTMLElement>(".beside");
if (root) new Beside(root, Array.from(document.querySelectorAll<HTMLElement>(".feet tbody tr")));
