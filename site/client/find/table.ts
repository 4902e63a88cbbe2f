// The words of the index and their stems. A word that is looked for is found in the table, or the
// nearest ones to it are taken: no stem is made here.

/** What parts words: blanks, marks and signs of all blocks that are met. (The engine in which tests run knows no classes of letters.) */
const between = /[\s\u0000-&(-\/:-@[-`{-\u00a9\u00ab-\u00b1\u00b4\u00b6-\u00b8\u00bb\u00bf\u00d7\u00f7\u2000-\u206f\u20a0-\u20cf\u2190-\u245f\u2500-\u2775\u2794-\u2bff\u3000-\u3004\u3008-\u3020]+/;

/** The words of a text as builder/search parts them. */
export function split(text: string): string[] {
  const found = text.toLowerCase().replace(/[’‘]/g, "'").split(between);
  return found.map((w) => w.replace(/^'+|'+$/g, "").replace(/'s$/, "").replace(/'/g, "")).filter((w) => w);
}

/** A term, and how much it counts. */
export interface Near {
  term: number;
  part: number;
  /** The word that was taken. */
  word: string;
}

/** How much a word counts that was taken for another. */
const ONE_OFF = 0.8;
const TWO_OFF = 0.6;
const BEGINS = 0.7;

const SHORT = 4; // letters from which a word may be one letter off
const LONG = 8; // and two
const MOST = 6; // words that are taken for one

export class Table {
  private readonly terms = new Map<string, number>();
  private readonly words: string[] = [];
  private readonly signs: Int32Array;

  constructor(coded: string) {
    coded.split("|").forEach((group, term) => {
      let before = "";
      group.split(" ").forEach((part, i) => {
        const word = i ? [...before].slice(0, parseInt(part.charAt(0), 36)).join("") + part.slice(1) : part;
        before = word;
        if (word) {
          this.terms.set(word, term);
          this.words.push(word);
        }
      });
    });
    this.signs = Int32Array.from(this.words, signs);
  }

  /** The term of a word; -1 where the table lacks it. */
  term(word: string): number {
    const found = this.terms.get(word);
    return found === undefined ? -1 : found;
  }

  /** What a word may be where the table lacks it: the nearest words, or those that begin with what is still being typed. */
  near(word: string, typing: boolean): Near[] {
    const begun = typing && word.length > 1 ? this.begins(word) : [];
    if (begun.length) return begun;
    const ended = this.ended(word);
    if (ended) return [ended];
    for (let off = 1; off <= allowed(word); off++) {
      const found = this.off(word, off);
      if (found.length) return found;
    }
    return [];
  }

  private begins(word: string): Near[] {
    return this.each(this.words.filter((w) => w.length > word.length && w.startsWith(word)), BEGINS);
  }

  /** A word with another ending: "vaults" where the table has "vaulting" alone. */
  private ended(word: string): Near | undefined {
    for (const cut of [word.replace(/(?:ies|ied|y)$/, "i"), word.replace(/(?:ing|ed|es|ers|er|ly|s|e)$/, ""), word.replace(/(.)\1(?:ing|ed|er|ers)$/, "$1")]) {
      if (cut.length < SHORT || cut === word) continue;
      for (const end of ["", "e", "s", "es", "ed", "ing", "er", "ly", "y", "ies"]) {
        const form = cut.replace(/i$/, end === "y" || end === "ies" ? "" : "i") + end;
        const term = this.term(form);
        if (term >= 0) return { term, part: 1, word: form };
      }
    }
    return undefined;
  }

  /** The words that are so many letters off. What has too many other letters is not looked at. */
  private off(word: string, most: number): Near[] {
    const own = signs(word);
    const found: string[] = [];
    for (let i = 0; i < this.words.length; i++) {
      const other = this.words[i] as string;
      if (Math.abs(other.length - word.length) > most || bits(own ^ (this.signs[i] as number)) > 2 * most) continue;
      if (most > 1 && other[0] !== word[0]) continue;
      if (other.length >= SHORT - 1 && distance(word, other, most) <= most) found.push(other);
    }
    const first = found.filter((w) => w[0] === word[0]);
    return this.each(first.length ? first : found, most > 1 ? TWO_OFF : ONE_OFF);
  }

  /** The terms of words, each once. */
  private each(words: string[], part: number): Near[] {
    const out: Near[] = [];
    for (const word of words) {
      const term = this.term(word);
      if (out.length < MOST && !out.some((n) => n.term === term)) out.push({ term, part, word });
    }
    return out;
  }
}

/** How many letters a word may be off. Numbers, and words with a number in them, are never off. */
function allowed(word: string): number {
  if (word.length < SHORT || /\d/.test(word)) return 0;
  return word.length < LONG ? 1 : 2;
}

/** Which letters a word has, one bit for each of a few. */
function signs(word: string): number {
  let out = 0;
  for (let i = 0; i < word.length; i++) out |= 1 << word.charCodeAt(i) % 31;
  return out;
}

function bits(n: number): number {
  let count = 0;
  for (; n; n &= n - 1) count++;
  return count;
}

/**
 * How many letters have to be put in, left out, changed or swapped with the next one: the distance of Damerau and
 * Levenshtein in its restricted form (from memory). What is more than most is given as more.
 */
export function distance(a: string, b: string, most: number): number {
  let before: number[] = [];
  let above: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    before = above;
    above = row;
    row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      let d = Math.min((above[j] as number) + 1, (row[j - 1] as number) + 1, (above[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, (before[j - 2] as number) + 1);
      row.push(d);
      least = Math.min(least, d);
    }
    if (least > most) return most + 1;
  }
  return row[b.length] as number;
}
