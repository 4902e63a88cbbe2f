// The sheet turned over: what became of each question, and what was agreed.

import { askWhole } from "../state/amounts";
import { App } from "../state/app";
import { asked } from "../sheet/compose";
import { act, clone, fill, slot } from "../page/dom";
import { tieWords } from "./field";
import { save } from "../sheet/files";
import { MOST_SAID, Mark } from "../state/kept";
import { Paper } from "./paper";

export function visitView(app: App, paper: Paper): HTMLElement {
  const view = clone("view-visit");
  const list = slot(view, "asked");
  asked(app.state).forEach((id, n) => list.appendChild(question(app, id, n)));
  slot(view, "none").hidden = list.childElementCount > 0;
  for (const name of ["decided", "tries", "meet"] as const) {
    const field = view.querySelector<HTMLTextAreaElement>(`#visit-${name}`) as HTMLTextAreaElement;
    field.value = app.state.kept.visit[name];
    tieWords(field, MOST_SAID, (text) => {
      app.state.kept.visit[name] = text;
    });
  }
  for (const event of ["input", "change"]) view.addEventListener(event, () => paper.showVisit());
  paper.showVisit();
  act(view, "print", () => window.print());
  act(view, "save", () => save(app));
  act(view, "sheet", () => app.go({ view: "sheet" }));
  return view;
}

function question(app: App, id: string, n: number): HTMLElement {
  const part = clone("part-asked");
  const visit = app.state.kept.visit;
  fill(part, "ask", askWhole(app.state, id));
  for (const box of Array.from(part.querySelectorAll<HTMLInputElement>("input"))) {
    const label = box.nextElementSibling as HTMLLabelElement;
    box.name = `visit-${n}`;
    box.id = label.htmlFor = `visit-${n}-${box.value}`;
    box.checked = visit.marks[id] === box.value;
    box.addEventListener("change", () => {
      visit.marks[id] = box.value as Mark;
    });
  }
  const field = part.querySelector("textarea") as HTMLTextAreaElement;
  field.id = (part.querySelector("label.said") as HTMLLabelElement).htmlFor = `visit-${n}-said`;
  field.value = visit.replies[id] || "";
  tieWords(field, MOST_SAID, (text) => {
    if (text) visit.replies[id] = text;
    else delete visit.replies[id];
  });
  return part;
}
