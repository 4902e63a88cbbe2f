// A kind word where something is missing, next to where it is missing.

import { slot } from "./dom";

/** Shows the text above the choices or at a field, ties it to them, and moves there. */
export function showProblem(view: HTMLElement, text: string, at?: HTMLElement, name = "problem"): void {
  const problem = slot(view, name);
  problem.textContent = text;
  problem.hidden = false;
  const field = at || (view.querySelector<HTMLElement>("input, textarea") as HTMLElement);
  const typed = field.matches('[type="text"], textarea');
  if (typed) field.setAttribute("aria-invalid", "true");
  describe((!typed && field.closest("fieldset")) || field, problem.id);
  field.focus();
  problem.scrollIntoView({ block: "nearest" });
}

/** Takes it away again: what is corrected is no longer described as wrong. */
export function hideProblem(view: HTMLElement, name = "problem"): void {
  const problem = slot(view, name);
  problem.hidden = true;
  for (const field of Array.from(view.querySelectorAll(`[aria-describedby~="${problem.id}"]`))) {
    field.removeAttribute("aria-invalid");
    const ids = described(field, problem.id);
    if (ids.length) field.setAttribute("aria-describedby", ids.join(" "));
    else field.removeAttribute("aria-describedby");
  }
}

function describe(element: Element, id: string): void {
  element.setAttribute("aria-describedby", [id].concat(described(element, id)).join(" "));
}

/** What describes an element, but for one. */
function described(element: Element, but: string): string[] {
  return (element.getAttribute("aria-describedby") || "").split(" ").filter((id) => id && id !== but);
}
