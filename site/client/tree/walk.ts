// A tree that a reader takes, as the views of its questions see it. To the planner it
// is a topic of a sitting, which other topics answer in part; alone.ts takes one by itself.

import { Tables } from "../types/quantity";
import { Path, Step } from "../walk/walker";
import { Box } from "./box";
import { Tree } from "./tree";

export interface Walk {
  readonly tree: Tree;
  readonly units: Tables | undefined;
  path(): Path;
  /** What to tick where a question comes; an amount as it was typed. */
  ticked(question: string): string[];
  /** Whether a question was answered by what was told elsewhere. */
  toldBefore(question: string): boolean;
  /** Notes an answer, and shows what follows. */
  answer(question: string, chosen: string[]): void;
  /** Shows what comes before a question that these steps led to. */
  back(steps: Step[]): void;
  /** Shows an earlier question, to change this one answer. */
  change(question: string): void;
  /** Puts beside a question what else the page has for it. */
  beside?(view: HTMLElement, box: Box | undefined): void;
}
