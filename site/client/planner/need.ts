// Scripts of the site's own that the page loads only when a reader asks for what
// they do: each leaves one name on the window. An element of the page names where it is.

import { Carry } from "../carry/carry";
import { runFigure } from "../figures/figure";

export interface Needs {
  keelpathCarry: Carry;
  keelpathFigure: typeof runFigure;
}

export function need<K extends keyof Needs>(name: K): Promise<Needs[K]> {
  const own = window as unknown as Partial<Needs>;
  return new Promise((done, fail) => {
    const there = (): void => (own[name] ? done(own[name] as Needs[K]) : fail(new Error(name)));
    if (own[name]) return there();
    const at = name === "keelpathCarry" ? "data-carry" : "data-figures";
    const script = document.createElement("script");
    script.src = (document.querySelector(`[${at}]`) as Element).getAttribute(at) as string;
    script.onload = there;
    script.onerror = () => fail(new Error(script.src));
    document.head.appendChild(script);
  });
}
