// Small helpers for the page. Every element comes from a template of the page
// or is made by name; text is only ever set as text.

/** What a template holds. */
export function template(id: string): DocumentFragment {
  const found = document.getElementById(id);
  if (!(found instanceof HTMLTemplateElement)) throw new Error(`the page has no template "${id}"`);
  return found.content;
}

/** A fresh copy of the one element inside a template. What many templates say stands in one of its own. */
export function clone(id: string): HTMLElement {
  const copy = document.importNode(template(id), true).firstElementChild;
  if (!(copy instanceof HTMLElement)) throw new Error(`template "${id}" is empty`);
  copy.querySelectorAll("[data-same]").forEach((e) => (e.textContent = template(`same-${e.getAttribute("data-same")}`).textContent));
  return copy;
}

/** The element that stands for something in a view. */
export function slot(root: ParentNode, name: string): HTMLElement {
  const found = root.querySelector<HTMLElement>(`[data-slot="${name}"]`);
  if (!found) throw new Error(`the page has no place for "${name}"`);
  return found;
}

export function make(tag: string, text?: string, name?: string): HTMLElement {
  const made = document.createElement(tag);
  if (text) made.textContent = text;
  if (name) made.className = name;
  return made;
}

/** Puts text into a place, or hides the place where there is none. */
export function fill(root: ParentNode, name: string, text: string | undefined): void {
  const place = slot(root, name);
  place.textContent = text || "";
  place.hidden = !text;
}

/** Puts elements into a place, or hides the place where there are none. */
export function put(root: ParentNode, name: string, parts: Node[]): void {
  const place = slot(root, name);
  for (const part of parts) place.appendChild(part);
  place.hidden = !parts.length;
}

/** Ties a button of a view to what it does. */
export function act(root: ParentNode, name: string, does: (button: HTMLElement) => void): HTMLElement {
  const button = root.querySelector<HTMLElement>(`[data-act="${name}"]`);
  if (!button) throw new Error(`the page has no button "${name}"`);
  button.addEventListener("click", () => does(button));
  return button;
}

/** Ties a form to what it does. Nothing is ever sent. */
export function submit(form: Element, does: () => void): void {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    does();
  });
}

export function empty(place: Node): void {
  while (place.firstChild) place.removeChild(place.firstChild);
}

/** Words that only a screen reader reads out, to tell like buttons apart. */
export function unseen(text: string): HTMLElement {
  return make("span", text, "unseen");
}

/** The ticked values of a view's inputs, in the page's order. */
export function ticked(root: ParentNode): string[] {
  return inputs(root)
    .filter((i) => i.checked)
    .map((i) => i.value);
}

export function inputs(root: ParentNode): HTMLInputElement[] {
  return Array.from(root.querySelectorAll<HTMLInputElement>('input[type="radio"], input[type="checkbox"]'));
}
