// What every view may ask of the planner.

import { Found, Kept } from "./kept";
import { Parts } from "./parts";
import { State } from "./state";
import { Screen } from "./screens";

export interface App {
  state: State;
  parts: Parts;
  /** Shows a screen as a new step, once all that it needs is loaded; then, where it was shown, does what follows. */
  go(screen: Screen, then?: () => void): void;
  /** Loads what reading a sheet with these topics needs, and those of them that the planner has. */
  load(topics: string[]): Promise<void>;
  /** Reads a saved sheet, once that is loaded. */
  read(text: string): Found;
  /** Goes one step back. */
  back(screen: Screen): void;
  /** Begins a tree, or goes on with it where the reader left it. */
  take(tree: string): void;
  /** Opens a sheet that was saved; what is said then is for every reader, or for those who cannot see it. */
  open(kept: Kept, said: string, seen: boolean): void;
  /** Tells a reader who cannot see it what just happened; or every reader. */
  say(text: string, seen?: boolean): void;
}

/** Where a tree stands: its open question, or its ending. */
export function standing(state: State, tree: string): Screen {
  const path = state.path(tree);
  if (path.ending) return { view: "ending", tree };
  return { view: "question", tree, question: path.open };
}
