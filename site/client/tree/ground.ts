// The ground under an answer that is a thing: a drawing of it, whose ground line is the line under the row. The
// drawings come by a script of their own; until then, and without it, the rows are words over hairlines.

import { Question } from "./tree";

/** What the script of the drawings leaves on the window (planner/ground.ts). */
export interface Ground {
  /** A drawing by its name, of an amount as walks hold it; none for a name that it lacks. */
  tile(name: string, amount?: number): SVGSVGElement | undefined;
  /** The picture of an ending at the reader's own amounts. */
  own(name: string, ...amounts: number[]): SVGSVGElement | undefined;
  /** All such pictures, each with the tiles of the measures that tell its amounts. */
  owns: { [name: string]: { of?: string[]; usual?: number[] } };
}

export function theGround(): Ground | undefined {
  return (window as { keelpathGround?: Ground }).keelpathGround;
}

/** Notes at each row of a question what is drawn under it. */
export function nameTiles(root: ParentNode, question: Question): void {
  const note = (id: string, name: string | undefined, amount?: number): void => {
    const row = name && rowOf(root, id);
    if (!row) return;
    row.setAttribute("data-ground", name as string);
    if (amount !== undefined) row.setAttribute("data-amount", String(amount));
  };
  for (const a of question.answers) note(a.id, a.ground);
  const m = question.measure;
  for (const like of (m && m.likes) || []) note(like.id, (m as { ground?: string }).ground, like.value.value);
}

function rowOf(root: ParentNode, id: string): HTMLElement | null {
  const found = root.querySelector(`[value="${id}"]`);
  return found && found.closest(".row");
}

/** Draws what rows name, where the drawings have come and it is not drawn yet. */
export function drawTiles(root: ParentNode): void {
  const ground = theGround();
  if (!ground) return;
  for (const row of Array.from(root.querySelectorAll<HTMLElement>(".row[data-ground]"))) {
    const amount = row.getAttribute("data-amount");
    const tile = row.querySelector("svg") ? undefined : ground.tile(row.getAttribute("data-ground") as string, amount === null ? undefined : Number(amount));
    if (!tile) continue;
    row.appendChild(tile);
    row.classList.add("drawn");
  }
}
