// The pages with figures that are not the planner: workbench and explainers.

import { Figure } from "./settle";
import { Tables } from "./quantity";
import { runFigure } from "./figure";

interface Block {
  units: Tables;
  planner: string;
  figures: { [id: string]: Figure };
}

const block = document.getElementById("figure-data");
if (block) {
  const data = JSON.parse(block.textContent as string) as Block;
  for (const root of Array.from(document.querySelectorAll<HTMLElement>("[data-figure]"))) {
    const figure = data.figures[root.getAttribute("data-figure") as string];
    if (figure) runFigure(root, figure, data.units, data.planner);
  }
}
