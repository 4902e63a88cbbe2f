// A figure that helps with the amount which a question asks for. It stands below
// the form, closed, and is made when first opened.

import { App } from "../state/app";
import { amountAt, units } from "../state/amounts";
import { Box } from "../tree/box";
import { clone, fill } from "../page/dom";
import { addressOf, need } from "./need";
import { Screen } from "../state/screens";
import { Coded } from "../types/figure";
import { entry } from "../walk/walker";
import * as words from "../words/words";

export function placeFigure(app: App, view: HTMLElement, screen: Screen, box: Box | undefined): void {
  const data = app.state.data;
  const asked = `${screen.tree}/${screen.question}`;
  const beside = entry(data.beside, asked);
  if (!beside || !box) return;
  const see = clone("part-see");
  fill(see, "name", beside.title);
  const reader = {
    asked,
    amount: (at: string) => (at === asked ? box.amount() : amountAt(app.state, at)),
    chosen: (tree: string, question: string) => app.state.chosen(tree, question),
    use: (text: string) => box.write(text),
    take: (question: string, of: { [question: string]: number }) => app.state.addOwn(question, of),
  };
  let asking = false;
  const open = (): void => {
    if (asking || !(see as HTMLDetailsElement).open) return;
    asking = true;
    const name = `figure-${beside.figure}`;
    const part = { name: name + addressOf("voice"), script: beside.script, style: addressOf("figure-style") };
    Promise.all([need("keelpathFigure"), app.parts.load([part])]).then(
      ([run]) => {
        const made = see.appendChild(clone(name));
        box.follow = run(made, entry(data.figures, beside.figure) as Coded, units(app.state), "", reader);
      },
      () => {
        asking = false; // opened again, it is tried again
        app.say(words.notLoaded, true);
      },
    );
  };
  see.addEventListener("toggle", open);
  view.appendChild(see);
}
