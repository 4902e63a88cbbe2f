// Which wishes pull against each other. All of it was worked out when the site
// was built; here it is looked up.

import { DataPulls as Pulls } from "../types/publish";

export type { Pulls };

export interface Found {
  shown: string[]; // ids of sets
  say: string;
}

export function look(data: Pulls, marked: string[]): Found {
  const all = (of: string[]): boolean => of.every((w) => marked.indexOf(w) >= 0);
  const within = data.sets.filter((s) => all(s.of));
  const conflicts = within.filter((s) => !s.note).length;
  const say = (): string => {
    if (!marked.length) return data.say.none;
    const found = data.say.found[conflicts - 1];
    if (found) return found;
    if (marked.length === 1) return data.say.one;
    if (within.length) return data.say.open;
    return data.leans.some(all) ? data.say.lean : data.say.clear;
  };
  return { shown: within.map((s) => s.id), say: say() };
}
