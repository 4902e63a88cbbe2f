// The pages with figures that are not the planner: workbench and explainers. The
// planner loads the same script when a reader opens a figure there.

import { FigureData } from "../types/publish";
import { runFigure } from "./figure";

(window as { keelpathFigure?: typeof runFigure }).keelpathFigure = runFigure;

const block = document.getElementById("figure-data");
if (block) {
  const data = JSON.parse(block.textContent as string) as FigureData;
  for (const root of Array.from(document.querySelectorAll<HTMLElement>("[data-figure]"))) {
    const figure = data.figures[root.getAttribute("data-figure") as string];
    if (figure) runFigure(root, figure, data.units, data.planner);
  }
}
