// A tree that is taken by itself, on a page that is no planner: one question at a time
// in a place of the page, and the answers in this page's memory alone. Only for trees
// that ask about danger themselves, as residents' do: nothing comes before this one.

import { act, empty, slot } from "../page/dom";
import { DataTree } from "../types/publish";
import { Tables } from "../types/quantity";
import { Answers, Path, Step, walk } from "../walk/walker";
import { questionView } from "./question";
import { Tree, addWords, templateOfEnding } from "./tree";
import { Walk } from "./walk";

export class Alone implements Walk {
  readonly tree: Tree;
  private answers: Answers = {};
  /** One answer is being changed, and the reader wants back to where they were. */
  private changing = false;

  /** The page has a template for each question and ending; end makes what it shows at the end of a path. */
  constructor(
    table: DataTree,
    private readonly root: HTMLElement,
    private readonly end: (walk: Walk) => HTMLElement,
    readonly units: Tables | undefined,
  ) {
    addWords(table, (ending) => templateOfEnding(table.id, ending));
    this.tree = table;
    this.show(table.start);
  }

  path(): Path {
    return walk(this.tree, this.answers, this.units);
  }

  ticked(question: string): string[] {
    return this.answers[question] || [];
  }

  toldBefore(): boolean {
    return false;
  }

  answer(question: string, chosen: string[]): void {
    this.answers[question] = chosen;
    const { steps, open } = this.path();
    const next = this.changing ? undefined : steps[steps.findIndex((s) => s.question === question) + 1];
    this.changing = false;
    this.show(next ? next.question : open);
    slot(this.root, "focus").focus();
  }

  back(steps: Step[]): void {
    const last = steps[steps.length - 1];
    if (!last) return;
    this.changing = false;
    this.show(last.question);
    slot(this.root, "focus").focus();
  }

  change(question: string): void {
    this.changing = true;
    this.show(question);
    slot(this.root, "focus").focus();
  }

  /** Shows a question; where there is none, the ending. */
  private show(question: string): void {
    empty(this.root);
    const view = question ? questionView(this, question) : this.end(this);
    if (question === this.tree.start) act(view, "back", () => undefined).hidden = true;
    this.root.appendChild(view);
    slot(view, "focus").tabIndex = -1;
  }
}
