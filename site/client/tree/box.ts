// The box for an amount. It reads back what is written, and where only the unit
// is missing it asks for that. What is written and what is picked from the list
// are one answer: the later one counts.

import { clone, inputs, make, slot } from "../page/dom";
import { hideProblem } from "../page/problem";
import { Tables, Value, back, read, refused } from "../sums/quantity";
import { TableMeasure, amount } from "../walk/walker";
import * as words from "../words/words";

export class Box {
  /** What else goes by the amount. */
  follow = (): void => undefined;
  private readonly picks: HTMLInputElement[];
  private readonly part = clone("part-amount");

  constructor(
    private readonly view: HTMLElement,
    private readonly field: HTMLInputElement,
    private readonly measure: TableMeasure,
    private readonly units: Tables,
  ) {
    this.picks = inputs(view);
    (field.parentElement as HTMLElement).insertBefore(this.part, field.nextSibling);
    field.addEventListener("input", () => {
      for (const pick of this.picks) pick.checked = false;
      this.offer([]);
      this.changed();
    });
    for (const pick of this.picks) pick.addEventListener("change", () => this.pick());
    this.readBack();
  }

  text(): string {
    return this.field.value.trim();
  }

  /** The amount that is written or picked, where there is one. */
  amount(): Value | undefined {
    const picked = this.picks.find((pick) => pick.checked);
    const said = this.text() || (picked ? picked.value : "");
    const v = said ? amount(this.measure, said, this.units) : undefined;
    return v && !refused(v) ? v : undefined;
  }

  /** Why what is written is not taken; empty where it is. A unit that is missing is asked for. */
  wrong(): string {
    const v = read(this.units, this.text(), this.measure);
    if (!refused(v)) return "";
    this.offer(v.choices || []);
    return v.choices ? words.whichUnit(this.text()) : v.text;
  }

  /** Takes an amount as if the reader had written it. */
  write(text: string): void {
    for (const pick of this.picks) pick.checked = false;
    this.field.value = text;
    this.changed();
  }

  private pick(): void {
    this.field.value = "";
    this.offer([]);
    this.changed();
  }

  private changed(): void {
    hideProblem(this.view);
    this.readBack();
    this.follow();
  }

  private readBack(): void {
    const v = this.text() ? read(this.units, this.text(), this.measure) : undefined;
    slot(this.part, "back").textContent = v && !refused(v) ? back(this.units, v, this.measure) + "." : "";
  }

  /** A button for each amount that may be meant; none is chosen before the reader does. */
  private offer(choices: string[]): void {
    const place = slot(this.part, "units");
    place.textContent = "";
    place.hidden = !choices.length;
    for (const choice of choices) {
      const button = make("button", choice);
      button.setAttribute("type", "button");
      button.setAttribute("aria-pressed", "false");
      button.addEventListener("click", () => {
        for (const other of Array.from(place.children)) other.setAttribute("aria-pressed", String(other === button));
        this.write(choice);
      });
      place.appendChild(button);
    }
  }
}
