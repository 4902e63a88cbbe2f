// Draws the picture of the pull. Across, all is in shares of the width, so that it
// holds on any screen; up and down it is in pixels. Ties pass behind the posts.

import { make } from "../page/dom";
import type { Picture, Post, Tie } from "./picture";

const NAME = "http://www.w3.org/2000/svg";

/** Pixels from the top of a post to the first tie, from one tie to the next, and from the last one to the ground. */
const HEAD = 32;
const STEP = 24;
const FOOT = 62;
const BELOW = 8;

/** How far a post leans, in degrees. */
const LEAN = 4;

/** The names over the posts, and posts and ties on the ground. What it shows is said by whoever places it. */
export function draw(picture: Picture, names: { [wish: string]: string }): Node[] {
  const labels = make("div", "", "post-names");
  for (const post of picture.posts) labels.appendChild(make("span", names[post.id]));
  return [labels, new Drawing(picture).svg];
}

class Drawing {
  readonly svg: SVGElement;
  private readonly ground: number;

  constructor(private readonly picture: Picture) {
    this.ground = HEAD + Math.max(picture.levels - 1, 0) * STEP + FOOT;
    this.svg = shape("svg", { class: "ground", width: "100%", height: this.ground + BELOW, focusable: "false", "aria-hidden": "true" });
    this.svg.appendChild(shape("line", { class: "g-line", x1: "-100%", x2: "200%", y1: this.ground, y2: this.ground }));
    for (const tie of picture.ties) this.tie(tie);
    picture.posts.forEach((post, at) => this.post(post, at));
    for (const tie of picture.ties) this.number(tie);
  }

  /** Where a place lies across the picture. */
  private across(at: number): string {
    return `${(100 * (at + 0.5)) / this.picture.posts.length}%`;
  }

  private tie(tie: Tie): void {
    const [first = 0, ...others] = tie.ends;
    if (tie.knot === undefined) return this.strand(tie, first, tie.level, others[0] as number, tie.level);
    const knot = tie.knot;
    for (const at of tie.ends) this.strand(tie, at, ring(tie, at), knot, tie.level + 0.5);
    this.svg.appendChild(shape("circle", { class: "i", cx: this.across(knot), cy: this.down(tie.level + 0.5), r: 4 }));
  }

  private strand(tie: Tie, from: number, fromLevel: number, to: number, toLevel: number): void {
    this.svg.appendChild(
      shape("line", {
        class: tie.open ? "h may-give" : "h",
        x1: this.across(from),
        y1: this.down(fromLevel),
        x2: this.across(to),
        y2: this.down(toLevel),
      }),
    );
  }

  private down(level: number): number {
    return HEAD + level * STEP;
  }

  /** A post with its rings stands in a drawing of its own, whose origin is its foot. */
  private post(post: Post, at: number): void {
    const place = shape("svg", { x: this.across(at), y: this.ground, overflow: "visible" });
    place.appendChild(shape("path", { class: "g-mine", d: "M-24 0H24" }));
    const leaning = place.appendChild(shape("g", { transform: `rotate(${post.lean * LEAN})` }));
    const top = this.ground - 4;
    leaning.appendChild(shape("path", { class: post.open ? "post unsure" : "post", d: `M-7 3L-6-${top - 11}L0-${top}L6-${top - 11}L7 3z` }));
    for (const level of this.rings(at)) {
      leaning.appendChild(shape("rect", { class: "p", x: -10, y: this.down(level) - this.ground - 6, width: 20, height: 12, rx: 4 }));
    }
    this.svg.appendChild(place);
  }

  private rings(at: number): number[] {
    return this.picture.ties.filter((t) => t.ends.indexOf(at) >= 0).map((t) => ring(t, at));
  }

  /** A tie's number stands on it beside its first post, or over its knot. */
  private number(tie: Tie): void {
    const knot = tie.knot !== undefined;
    const at = knot ? (tie.knot as number) : (tie.ends[0] as number) + 0.5;
    const y = this.down(tie.level) + (knot ? -1 : 5);
    const text = shape("text", { class: "tie-no", x: this.across(at), y });
    text.textContent = String(tie.no);
    this.svg.appendChild(text);
  }
}

/** On which level a tie holds a post: the inner ones of a knot sit one lower. */
const ring = (tie: Tie, at: number): number => tie.level + (tie.knot === undefined || at === tie.ends[0] || at === tie.ends[tie.ends.length - 1] ? 0 : 1);

function shape(tag: string, attributes: { [name: string]: string | number }): SVGElement {
  const made = document.createElementNS(NAME, tag) as SVGElement;
  for (const name of Object.keys(attributes)) made.setAttribute(name, String(attributes[name]));
  return made;
}
