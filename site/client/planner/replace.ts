// Another sheet in place of the one at hand. It is asked first, and there is a
// way back: nobody loses a sheet by opening another.

import { App } from "../state/app";
import { act, slot } from "../page/dom";
import { Kept, holdsNothing } from "../state/kept";
import * as words from "../words/words";

export class Replace {
  private next: (() => void) | undefined;

  constructor(
    private readonly app: App,
    private readonly root: HTMLElement,
  ) {
    act(root, "replace", () => this.goOn());
    act(root, "leave", () => this.leave());
    act(root, "bring-back", () => this.bringBack());
  }

  /** Opens a sheet, after asking where one would be lost from sight. */
  open(kept: Kept, said: string, seen: boolean): void {
    const does = (): void => {
      this.app.state.open(kept);
      this.app.go({ view: "sheet" }, () => this.app.say(said, seen));
    };
    if (holdsNothing(this.app.state.kept)) return does();
    this.next = does;
    slot(this.root, "replacing").hidden = false;
    slot(this.root, "replacing-text").focus();
  }

  /** Follows the screen: a question that was left unanswered is gone, and the way back stands on the sheet. */
  follow(view: string): void {
    this.next = undefined;
    slot(this.root, "replacing").hidden = true;
    slot(this.root, "earlier").hidden = view !== "sheet" || !this.app.state.earlier;
  }

  private goOn(): void {
    const does = this.next;
    if (does) does();
  }

  private leave(): void {
    this.next = undefined;
    slot(this.root, "replacing").hidden = true;
    this.app.say(words.kept, true);
    slot(slot(this.root, "view"), "focus").focus();
  }

  private bringBack(): void {
    const earlier = this.app.state.earlier;
    if (!earlier) return;
    this.app.state.earlier = undefined;
    this.app.state.open(earlier);
    this.app.go({ view: "sheet" }, () => this.app.say(words.broughtBack, true));
  }
}
