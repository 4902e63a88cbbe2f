// The box for an amount. It reads back what is written, and as soon as only the unit
// is missing it asks for that: a bare number is never taken for one or the other.

import { clone, make, slot } from "../page/dom";
import { hideProblem } from "../page/problem";
import { Tables, Value, back, keep, refused, typed, written } from "../sums/quantity";
import { TableMeasure, amount } from "../walk/walker";
import * as words from "../words/words";

/** Whether amounts may be written otherwise than they are kept; ../sums/quantity says more. */
declare const OTHER_LANGUAGE: boolean;

export class Box {
  /** What else goes by the amount. */
  follow = (): void => undefined;
  private readonly part = clone("part-amount");

  constructor(
    private readonly view: HTMLElement,
    private readonly field: HTMLInputElement,
    private readonly measure: TableMeasure,
    private readonly units: Tables,
  ) {
    if (OTHER_LANGUAGE) field.value = written(units, field.value, measure);
    (field.parentElement as HTMLElement).insertBefore(this.part, field.nextSibling);
    field.addEventListener("input", () => this.changed());
    this.readBack();
  }

  text(): string {
    return this.field.value.trim();
  }

  /** The amount that is written, where there is one. */
  amount(): Value | undefined {
    const v = this.text() ? amount(this.measure, this.kept(), this.units) : undefined;
    return v && !refused(v) ? v : undefined;
  }

  /** What is written, as it is kept. */
  kept(): string {
    return OTHER_LANGUAGE ? keep(this.units, this.text(), this.measure) : this.text();
  }

  /** Why what is written is not taken; empty where it is. */
  wrong(): string {
    const v = typed(this.units, this.text(), this.measure);
    if (!refused(v)) return "";
    return v.choices ? words.whichUnit(this.text()) : v.text;
  }

  /** Takes an amount as if the reader had written it. */
  write(text: string): void {
    this.field.value = text;
    this.changed();
  }

  private changed(): void {
    hideProblem(this.view);
    this.readBack();
    this.follow();
  }

  private readBack(): void {
    const v = this.text() ? typed(this.units, this.text(), this.measure) : undefined;
    slot(this.part, "back").textContent = v && !refused(v) ? back(this.units, v, this.measure) + "." : "";
    this.offer((v && refused(v) && v.choices) || []);
  }

  /** A button for each amount that may be meant; none is chosen before the reader does. */
  private offer(choices: string[]): void {
    const place = slot(this.part, "units");
    place.textContent = "";
    place.hidden = !choices.length;
    for (const choice of choices) {
      const button = make("button", choice);
      button.setAttribute("type", "button");
      button.addEventListener("click", () => {
        this.write(choice);
        this.field.focus();
      });
      place.appendChild(button);
    }
  }
}
