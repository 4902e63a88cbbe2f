// The JSON block of the planner page: what the build knows of trees, prompts
// and cards. Fields that would be empty are left out of it.

import { Said, Table as Safety, signOf } from "../safety/safety";
import { Tree, addWords, templateOfEnding } from "../tree/tree";
import { Data as Block, DataTheme as Theme } from "../types/publish";

export type { Theme };

export interface Data extends Block {
  trees: Tree[];
}

/** Reads the block; throws where the page is not whole. */
export function read(id: string): Data {
  const block = document.getElementById(id);
  if (!block || !block.textContent) throw new Error(`the page has no "${id}"`);
  const data = JSON.parse(block.textContent) as Data;
  for (const tree of data.trees) {
    addWords(tree, (ending) => {
      const sign = signOfEnding(data.safety, ending);
      return sign ? templateOfTold(sign) : templateOfEnding(tree.id, ending);
    });
  }
  return data;
}

/** The sign of the safety screen that an ending stands for, or that a way leads to. */
export function signOfEnding(safety: Safety, ending: string): Said | undefined {
  const found = ending.indexOf(SIGN) === 0 ? signOf(safety, ending.slice(SIGN.length)) : undefined;
  return found && { group: found.group.id, sign: found.sign.id };
}

const SIGN = "safety-";

/** The template that holds the caution of something told. */
export function templateOfTold(said: Said): string {
  return `told-${said.group}-${said.sign}`;
}
