// Answers outlive a reload in this one tab, and nothing more: they are written
// as the page is left and are gone when the tab is closed or all is cleared. An
// edition for shared screens keeps nothing at all.

import { Found, Kept, topicsIn, write } from "./kept";
import { State } from "./state";
import { addOnce } from "../walk/walker";
import * as words from "../words/words";

const NAME = "keelpath-sheet";
const EARLIER = "keelpath-sheet-earlier";
const SITTING = "keelpath-sitting";

export class Tab {
  /** What is kept has not been taken up yet: nothing may take its place. */
  private held = false;

  constructor(private readonly state: State) {
    if (state.data.edition.shared) {
      this.forget();
      return;
    }
    window.addEventListener("pagehide", () => this.keep());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.keep();
    });
  }

  /** Takes up what was told of safety, for which nothing has to be loaded; gives the topics that the rest needs, or nothing where there is no rest. */
  begin(): string[] | undefined {
    if (this.state.data.edition.shared) return undefined;
    this.state.sitting.read(this.reach((s) => s.getItem(SITTING)) || "");
    const texts = [NAME, EARLIER].map((name) => this.reach((s) => s.getItem(name)) || "").filter((text) => text);
    this.held = texts.length > 0;
    if (!this.held) return undefined;
    const named: string[] = [];
    for (const text of texts) addOnce(named, topicsIn(text, this.state.data));
    return named;
  }

  /** Takes up the rest of what was left in this tab; gives what to say of it. */
  restore(read: (text: string) => Found): string {
    this.held = false;
    const earlier = this.look(EARLIER, read);
    if (earlier && !("refused" in earlier)) this.state.earlier = earlier.kept;
    const found = this.look(NAME, read);
    if (!found) return "";
    if ("refused" in found) return found.refused === "empty" ? "" : words.notKept;
    this.state.kept = found.kept;
    return [words.stillHere, found.says].filter((s) => s).join(" ");
  }

  forget(): void {
    this.held = false;
    this.put(NAME, undefined);
    this.put(EARLIER, undefined);
    this.putSitting("");
  }

  private keep(): void {
    if (!this.held) this.put(NAME, this.state.isEmpty() ? undefined : this.state.kept);
    if (!this.held) this.put(EARLIER, this.state.earlier);
    this.putSitting(this.state.sitting.isEmpty() ? "" : this.state.sitting.write());
  }

  private look(name: string, read: (text: string) => Found): Found | undefined {
    const text = this.reach((s) => s.getItem(name));
    return text ? read(text) : undefined;
  }

  private putSitting(text: string): void {
    this.reach((s) => (text ? s.setItem(SITTING, text) : s.removeItem(SITTING)));
  }

  private put(name: string, kept: Kept | undefined): void {
    this.reach((s) => (kept ? s.setItem(name, write(kept, this.state.data)) : s.removeItem(name)));
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
