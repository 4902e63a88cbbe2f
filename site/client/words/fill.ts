// Texts with gaps, {name}, that a page fills.

export type Gaps = { [gap: string]: string | number };

/** A text with its gaps filled. */
export function fill(text: string, gaps: Gaps): string {
  return text.replace(/\{([a-z-]+)\}/g, (_, gap: string) => String(gaps[gap]));
}
