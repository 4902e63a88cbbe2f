// Answers outlive a reload in this one tab, and nothing more: they are written
// as the page is left and are gone when the tab is closed or all is cleared. An
// edition for shared screens keeps nothing at all.

import { read, write } from "./kept";
import { State } from "./state";

const NAME = "keelpath-sheet";

export class Tab {
  constructor(private readonly state: State) {
    if (state.data.edition.shared) {
      this.forget();
      return;
    }
    window.addEventListener("pagehide", () => this.put());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.put();
    });
  }

  /** Takes up what was left in this tab; tells whether there was anything. */
  restore(): boolean {
    const kept = this.state.data.edition.shared ? undefined : read(this.reach((s) => s.getItem(NAME)) || "", this.state.data);
    if (kept) this.state.kept = kept;
    return !this.state.isEmpty();
  }

  forget(): void {
    this.reach((s) => s.removeItem(NAME));
  }

  private put(): void {
    if (this.state.isEmpty()) this.forget();
    else this.reach((s) => s.setItem(NAME, write(this.state.kept, this.state.data)));
  }

  /** Some browsers keep no such store for a page from disk. Then a reload begins anew. */
  private reach<T>(does: (store: Storage) => T): T | undefined {
    try {
      return does(window.sessionStorage);
    } catch {
      return undefined;
    }
  }
}
