// Kinds of feet cut open: small drawings without words, all at one scale. They come in a script of their own
// (builder/publish/ground.go), which leaves one name on the window. What they show is said beside them, so they are hidden from who listens.

import { GroundShape } from "../types/publish";

const NAME = "http://www.w3.org/2000/svg";

export type Cuts = { [kind: string]: GroundShape };

export function theCuts(): Cuts | undefined {
  return (window as { keelpathCuts?: Cuts }).keelpathCuts;
}

/** A kind of foot cut open; none for a kind that has no drawing, or before the drawings have come. */
export function cut(kind: string): SVGSVGElement | undefined {
  const all = theCuts();
  const shape = all && Object.prototype.hasOwnProperty.call(all, kind) ? all[kind] : undefined;
  if (!shape) return undefined;
  const svg = document.createElementNS(NAME, "svg");
  const attributes = { class: "cut", "aria-hidden": "true", focusable: "false", "data-cut": kind, viewBox: `0 0 ${shape.wide} ${shape.tall}` };
  for (const [key, value] of Object.entries(attributes)) svg.setAttribute(key, value);
  svg.innerHTML = shape.body;
  return svg;
}

/** Puts a kind's drawing at the head of each entry that names one and has none yet. */
export function drawCuts(root: ParentNode): void {
  for (const one of Array.from(root.querySelectorAll<HTMLElement>("[data-kind]"))) {
    const svg = one.querySelector(".cut") ? undefined : cut(one.getAttribute("data-kind") as string);
    if (!svg) continue;
    one.insertBefore(svg, one.firstChild);
    one.classList.add("drawn");
  }
}
