// Text as it is read aloud, one sentence after another; no page.

interface Segments {
  segment(text: string): Iterable<{ index: number; segment: string }>;
}
type Segmenter = new (lang: string, how: { granularity: "sentence" }) => Segments;

/** Where each sentence of a text begins and ends, as indexes of the text. Blanks alone are no sentence. */
export function sentences(text: string, lang: string): [number, number][] {
  const by = (Intl as { Segmenter?: Segmenter }).Segmenter;
  const cuts = by ? Array.from(new by(lang, { granularity: "sentence" }).segment(text), (s) => s.index) : plainCuts(text);
  return cuts.map((from, i): [number, number] => [from, cuts[i + 1] || text.length]).filter(([from, to]) => /\S/.test(text.slice(from, to)));
}

/** Without rules of a language, a sentence ends at its mark and the blank behind it. */
function plainCuts(text: string): number[] {
  const cuts = [0];
  text.replace(/[.!?…]["”’)\]]*\s+(?=\S)/g, (end: string, at: number) => {
    cuts.push(at + end.length);
    return end;
  });
  return cuts;
}

/** How a sentence is said: a ratio as a person says it, and blanks as one. to is the word between its numbers. */
export function spoken(text: string, to: string): string {
  return text
    .replace(/(\p{Nd}):(\p{Nd})/gu, `$1 ${to} $2`)
    .replace(/\s+/g, " ")
    .trim();
}

export interface Voice {
  readonly lang: string;
  readonly localService: boolean;
  readonly default: boolean;
}

/**
 * A voice that the device makes by itself, in the language of the page; what is read can tell of someone's health, so a voice
 * that sends text away is never taken. The very language comes first ("en-US" on a page in "en-US"), then the device's own choice.
 */
export function ownVoice<V extends Voice>(voices: readonly V[], lang: string): V | undefined {
  const base = lang.split("-")[0];
  const tag = (v: Voice) => v.lang.replace("_", "-");
  const fits = voices.filter((v) => v.localService && tag(v).split("-")[0] === base);
  return fits.find((v) => tag(v) === lang) || fits.find((v) => v.default) || fits[0];
}
