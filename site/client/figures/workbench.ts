// The pages with figures that are not the planner: workbench and explainers. The
// planner loads the same script when a reader opens a figure there.

import { Figure } from "./settle";
import { Tables } from "../sums/quantity";
import { runFigure } from "./figure";

interface Block {
  units: Tables;
  planner: string;
  figures: { [id: string]: Figure };
}

(window as { keelpathFigure?: typeof runFigure }).keelpathFigure = runFigure;

const block = document.getElementById("figure-data");
if (block) {
  const data = JSON.parse(block.textContent as string) as Block;
  for (const root of Array.from(document.querySelectorAll<HTMLElement>("[data-figure]"))) {
    const figure = data.figures[root.getAttribute("data-figure") as string];
    if (figure) runFigure(root, figure, data.units, data.planner);
  }
}
