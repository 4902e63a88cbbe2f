// The picture of the pull, as plain values: each wish is a post on the ground, and a
// tie runs between exactly those that the page names as one conflict. What pulls was
// worked out when the site was built (pulls.ts); here is only where it is drawn.

import type { DataPull } from "../types/publish";

/** More wishes than these are told by the list alone. */
export const MOST_POSTS = 4;

export interface Post {
  id: string;
  open: boolean; // no kind of foot is sure to meet it
  lean: -1 | 0 | 1; // away from the side on which more ties pull
}

/** A tie goes by the number of its conflict on the page. A tie of more than two ends comes together in a knot. */
export interface Tie {
  no: number;
  ends: number[]; // places of posts, from the left
  open: boolean; // ratings behind it are not settled
  level: number; // from the top; one with a knot takes this and the next
  knot?: number; // where, counted in places
}

export interface Picture {
  posts: Post[];
  ties: Tie[];
  levels: number;
}

/** The picture of what was marked, or nothing where the list has to tell it alone. */
export function picture(sets: DataPull[], marked: string[]): Picture | null {
  if (!marked.length || marked.length > MOST_POSTS) return null;
  const within = sets.filter((s) => s.of.every((w) => marked.indexOf(w) >= 0));
  const pulls = within.filter((s) => !s.note).map((set, i) => ({ set, no: i + 1 }));
  const order = best(marked, pulls.map((p) => p.set).filter(joins));
  const ties = pulls.filter((p) => joins(p.set)).map((p) => tie(p.set, p.no, order));
  const levels = layered(ties);
  const posts = order.map((id, at) => ({ id, open: within.some((s) => s.of.length === 1 && s.of[0] === id), lean: lean(ties, at) }));
  return { posts, ties, levels };
}

/** A conflict of one wish with itself is told by its post. */
const joins = (set: DataPull): boolean => set.of.length > 1;

function tie(set: DataPull, no: number, order: string[]): Tie {
  const ends = set.of.map((w) => order.indexOf(w)).sort((a, b) => a - b);
  const made: Tie = { no, ends, open: !!set.open, level: 0 };
  // The knot stands beside the second post, so that no post hides it.
  if (ends.length > 2) made.knot = (ends[1] as number) + (ends.length > 3 ? 0.5 : -0.5);
  return made;
}

/** Of all orders of the posts, the one with the shortest ties; of several, the first by the page's own order. */
function best(marked: string[], sets: DataPull[]): string[] {
  let found = marked;
  let least = Infinity;
  for (const order of orders(marked)) {
    const long = sets.reduce((sum, s) => sum + span(tie(s, 0, order)), 0);
    if (long < least) [found, least] = [order, long];
  }
  return found;
}

function orders(of: string[]): string[][] {
  if (of.length < 2) return [of];
  return of.reduce<string[][]>((all, first, i) => all.concat(orders(of.filter((_, k) => k !== i)).map((rest) => [first].concat(rest))), []);
}

const from = (t: Tie): number => t.ends[0] as number;
const to = (t: Tie): number => t.ends[t.ends.length - 1] as number;
const span = (t: Tie): number => to(t) - from(t);
const depth = (t: Tie): number => (t.knot === undefined ? 1 : 2);

/** Gives each tie the topmost level on which it runs over no other, short ties first, and counts the levels. */
function layered(ties: Tie[]): number {
  const placed: Tie[] = [];
  for (const t of ties.slice().sort((a, b) => depth(a) - depth(b) || span(a) - span(b) || from(a) - from(b) || a.no - b.no)) {
    while (placed.some((o) => over(t, o))) t.level++;
    placed.push(t);
  }
  return placed.reduce((most, t) => Math.max(most, t.level + depth(t)), 0);
}

/** Two ties may share a post, but no stretch of a level between posts. */
function over(a: Tie, b: Tie): boolean {
  const beside = from(a) < to(b) && from(b) < to(a);
  return beside && a.level < b.level + depth(b) && b.level < a.level + depth(a);
}

function lean(ties: Tie[], at: number): -1 | 0 | 1 {
  const pull = ties.filter((t) => t.ends.indexOf(at) >= 0).reduce((sum, t) => sum + Math.sign(toward(t, at) - at), 0);
  return pull > 0 ? -1 : pull < 0 ? 1 : 0;
}

/** To where a tie pulls one of its posts. */
const toward = (t: Tie, at: number): number => (t.knot !== undefined ? t.knot : from(t) === at ? to(t) : from(t));
