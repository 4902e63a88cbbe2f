// A topic of the planner as the views of a tree see it: its answers are the sitting's,
// and what it leads to is a screen.

import { App, standing } from "../state/app";
import { Screen } from "../state/screens";
import { after, askedHere, previous } from "../state/steps";
import { Walk } from "../tree/walk";
import { placeFigure } from "./beside";

export function topic(app: App, screen: Screen): Walk {
  const state = app.state;
  const tree = screen.tree as string;
  return {
    tree: state.tree(tree),
    units: state.data.units,
    path: () => state.path(tree),
    ticked: (question) => state.ticked(tree, question),
    toldBefore: (question) => state.toldBefore(tree, question),
    answer(question, chosen) {
      state.answer(tree, question, chosen);
      app.go(screen.change ? standing(state, tree) : after(state, tree, question));
    },
    back: (steps) => app.back(previous(askedHere(state, tree, steps), tree)),
    change: (question) => app.go({ view: "question", tree, question, change: true }),
    beside: (view, box) => placeFigure(app, view, screen, box),
  };
}
