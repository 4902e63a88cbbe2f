// The files of the index. Each calls keelpathFound with what it brings, so that a script that fails half-way
// is not taken for whole.

import { Index } from "../find/rank";
import { loadScript } from "../page/load";
import { First, Text } from "../types/search";

export class Files {
  index: Index | undefined;
  private readonly texts = new Map<string, Text>();
  private readonly coming = new Map<string, Promise<void>>();

  constructor(private readonly folder: string) {
    (window as { keelpathFound?: (kind: string, name: string, brings: unknown) => void }).keelpathFound = (kind, name, brings) => {
      if (kind === "first") this.index = new Index(brings as First);
      else if (kind === "part" && this.index) this.index.take(name, brings as string[]);
      else if (kind === "text") this.texts.set(name, brings as Text);
    };
  }

  /** The texts of a page; undefined before they have come. */
  text(page: string): Text | undefined {
    return this.texts.get(page);
  }

  /** Loads files that are not here yet. */
  load(names: string[]): Promise<void> {
    return Promise.all(names.map((name) => this.one(name))).then(() => undefined);
  }

  private one(name: string): Promise<void> {
    const known = this.coming.get(name);
    if (known) return known;
    const coming = loadScript(this.folder + name);
    this.coming.set(name, coming);
    coming.catch(() => this.coming.delete(name)); // so that it can be tried once more
    return coming;
  }
}
