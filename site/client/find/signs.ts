// Which signs of the safety screen a question names, in everyday words. It needs nothing but what is in the page.

import { SignsSaid } from "../types/search";
import { Table, split } from "./table";

export class Signs {
  private readonly table: Table;

  constructor(private readonly said: SignsSaid) {
    this.table = new Table(said.words);
  }

  /** The ids of the signs that a question names, the gravest first. A word that nobody knows counts for the nearest one. */
  named(question: string, strange: (word: string) => boolean): string[] {
    const terms = new Set<number>();
    for (const word of split(question)) {
      const term = this.table.term(word);
      if (term >= 0) terms.add(term);
      else if (strange(word)) this.table.near(word, false).forEach((n) => terms.add(n.term));
    }
    return this.said.signs.filter((sign) => sign.says.some((wording) => wording.every((word) => word.some((t) => terms.has(t))))).map((sign) => sign.id);
  }
}
