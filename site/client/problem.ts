// A kind word where something is missing, next to where it is missing.

import { slot } from "./dom";

/** Shows the text above the choices, ties it to them, and moves there. */
export function showProblem(view: HTMLElement, text: string): void {
  const problem = slot(view, "problem");
  problem.textContent = text;
  problem.hidden = false;
  const field = view.querySelector<HTMLElement>("input, textarea") as HTMLElement;
  const typed = field.matches('[type="text"], textarea');
  if (typed) field.setAttribute("aria-invalid", "true");
  describe((!typed && field.closest("fieldset")) || field, problem.id);
  field.focus();
  problem.scrollIntoView({ block: "nearest" });
}

function describe(element: Element, id: string): void {
  const ids = (element.getAttribute("aria-describedby") || "").split(" ").filter((i) => i && i !== id);
  element.setAttribute("aria-describedby", [id].concat(ids).join(" "));
}
