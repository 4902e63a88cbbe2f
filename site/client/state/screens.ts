// Which screen is shown, and the browser's own Back and Forward. A history
// entry holds a number and no more: no answer, no address of its own, so
// nothing of the reader's is left behind in the browser.

import { Step } from "../safety/safety";

export interface Screen {
  /** A "topic" is one to take, which is shown as its open question; "missing" stands for what could not be loaded. */
  view: "topics" | "topic" | "question" | "ending" | "sheet" | "visit" | "safety" | "missing";
  tree?: string;
  question?: string;
  /** The reader came to change this one answer and wants back to where they were. */
  change?: boolean;
  /** Of the safety screen: the part, whether every group is asked, and where it leads on to; or what was missing. */
  step?: Step;
  whole?: boolean;
  to?: Screen;
  /** The voice that the reader chooses on the way to it; empty for their own. */
  voice?: string | undefined;
  /** The reader came back to it and sees its ending, even if nothing has changed. */
  again?: boolean;
}

const topics: Screen = { view: "topics" };

export class Screens {
  private seen: { [n: number]: Screen } = {};
  private n: number;

  /** Show gives the screen that it shows: the safety screen may come before what was asked. */
  constructor(private readonly show: (screen: Screen) => Screen) {
    // After a reload the entries behind this one are from a life that is over.
    this.n = numberOf(history.state) || 0;
    this.seen[this.n] = topics;
    this.mark("replaceState");
    if ("scrollRestoration" in history) history.scrollRestoration = "manual";
    window.addEventListener("popstate", (event) => this.popped(numberOf(event.state)));
  }

  /** Shows a screen as a new step. */
  go(screen: Screen): void {
    this.n++;
    this.mark("pushState");
    this.seen[this.n] = this.show(screen);
  }

  /** Shows the screen one step back; as the browser's Back where that is the same thing. */
  back(screen: Screen): void {
    const before = this.seen[this.n - 1];
    if (before && placeOf(before) === placeOf(screen)) history.back();
    else this.go(screen);
  }

  /** Forgets all steps: from here, Back finds only the topics. */
  forget(): void {
    this.seen = {};
  }

  private popped(n: number | undefined): void {
    if (n === undefined) return; // not ours: a jump inside the page
    this.n = n;
    this.seen[n] = this.show(this.seen[n] || topics);
  }

  private mark(how: "pushState" | "replaceState"): void {
    try {
      history[how]({ n: this.n }, "");
    } catch {
      // Some viewers keep no history. Then Back leaves the page, as on any page.
    }
  }
}

function placeOf(screen: Screen): string {
  const step = screen.step;
  return [screen.view, screen.tree, screen.question, step && step.ask, step && step.group].join();
}

function numberOf(state: unknown): number | undefined {
  const n = state && (state as { n?: unknown }).n;
  return typeof n === "number" ? n : undefined;
}
