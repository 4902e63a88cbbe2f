// Links inside a view. A link to a tree takes it here; any other opens beside
// the planner, for the answers live in this page and would be lost with it.

import { App } from "../state/app";
import { TAKE } from "../invite/address";
import { unseen } from "../page/dom";
import * as words from "../words/words";

export function tendLinks(app: App, view: HTMLElement): void {
  const here = new URL(".", location.href).href; // where the topics' own pages lie too
  for (const link of Array.from(view.querySelectorAll<HTMLAnchorElement>("a[href]"))) {
    if (link.hasAttribute("data-slot")) { // to a topic's own page, for a reader who takes it by hand
      openBeside(link);
      continue;
    }
    const tree = app.state.data.topics.find((t) => link.href === `${here}${t.id}.html` || link.href === `${here}index.html${TAKE}${t.id}`);
    if (tree) takeHere(app, link, tree.id);
    else if (link.protocol !== "tel:") openBeside(link);
  }
}

function takeHere(app: App, link: HTMLAnchorElement, tree: string): void {
  link.removeAttribute("target");
  link.textContent = (link.textContent as string).replace(words.newTab(), "");
  link.addEventListener("click", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return; // the reader asked for a tab of its own
    event.preventDefault();
    app.take(tree);
  });
}

function openBeside(link: HTMLAnchorElement): void {
  if (link.target) return; // it says so already
  link.target = "_blank";
  link.rel = "noopener";
  link.classList.add("beside");
  link.appendChild(unseen(words.newTab()));
}
