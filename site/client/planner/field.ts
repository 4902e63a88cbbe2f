// The reader's own words. Nothing is cut: near its limit a field counts, and what
// goes beyond it is not taken and stays where it was written.

import { make } from "../page/dom";
import { letters } from "../state/kept";
import * as words from "../words/words";

/** Ties a field to its count, and hands on what is written as long as it fits. */
export function tieWords(field: HTMLTextAreaElement, most: number, take?: (text: string) => void): void {
  const count = make("p", "", "count");
  count.id = `${field.id}-count`;
  count.hidden = true;
  (field.closest("p") || field).insertAdjacentElement("afterend", count); // no paragraph stands in another
  field.setAttribute("aria-describedby", [field.getAttribute("aria-describedby"), count.id].filter((id) => id).join(" "));
  field.addEventListener("input", () => {
    const text = field.value.trim();
    const n = letters(text);
    const near = n > most * 0.8;
    count.textContent = n > most ? words.tooLongBy(n - most, most) : near ? words.used(n, most) : "";
    count.hidden = !near;
    count.classList.toggle("problem", n > most);
    if (n > most) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
    if (take && n <= most) take(text);
  });
}

/** Why a text is not taken; empty where it is. */
export function tooMuch(text: string, most: number): string {
  const n = letters(text);
  return n > most ? words.tooLongBy(n - most, most) : "";
}
