// A figure that helps with the amount which a question asks for. It stands below
// the form, closed, and is made when first opened.

import { App } from "../state/app";
import { amountAt, units } from "../state/amounts";
import { Box } from "../tree/box";
import { clone, fill } from "../page/dom";
import { need } from "./need";
import { Screen } from "../state/screens";
import { entry } from "../walk/walker";
import * as words from "../words/words";

export function placeFigure(app: App, view: HTMLElement, screen: Screen, box: Box | undefined): void {
  const data = app.state.data;
  const asked = `${screen.tree}/${screen.question}`;
  const name = entry(data.beside || {}, asked);
  const figure = name && entry(data.figures || {}, name);
  if (!name || !figure || !box) return;
  const see = clone("part-see");
  const made = clone(`figure-${name}`);
  fill(see, "name", made.getAttribute("data-title") as string);
  const reader = {
    asked,
    amount: (at: string) => (at === asked ? box.amount() : amountAt(app.state, at)),
    chosen: (tree: string, question: string) => app.state.chosen(tree, question),
    use: (text: string) => box.write(text),
    take: (question: string, of: { [question: string]: number }) => app.state.addOwn(question, of),
  };
  const open = (): void => {
    see.appendChild(made);
    need("keelpathFigure").then(
      (run) => (box.follow = run(made, figure, units(app.state), "", reader)),
      () => app.say(words.notLoaded, true),
    );
  };
  see.addEventListener("toggle", open, { once: true });
  view.appendChild(see);
}
