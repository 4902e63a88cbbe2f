// What the planner knows of its trees, prompts and cards: a JSON block and the list of topics
// in the page, and what each part brings that is loaded later. Fields that would be empty are left out of it.

import { template } from "../page/dom";
import { takeUp } from "../page/takeup";
import { Said, Table as Safety, signOf } from "../safety/safety";
import { Wanted } from "./parts";
import { Tree, addWords, templateOfEnding } from "../tree/tree";
import { DataAbout, Data as Block, DataBeside, DataFact, DataPrompt, DataTheme as Theme, Part } from "../types/publish";
import { Coded } from "../types/figure";
import { Tables } from "../types/quantity";
import { entry } from "../sums/own";

export type { Theme };

/** A topic of the list. */
export interface Topic {
  id: string;
  title: string;
  /** All groups of the safety screen come before it. */
  whole: boolean;
  part: Wanted;
}

export interface Data extends Block {
  topics: Topic[];
  /** Of the topics, those that have come, in the same order. */
  trees: Tree[];
  themes: Theme[];
  facts: { [fact: string]: DataFact };
  /** What stands of them on the sheet; it comes with the sheet. */
  about?: DataAbout;
  /** The prompts that each card brings. */
  cards: { [card: string]: string[] };
  /** By the question beside which the figure stands. */
  beside: { [question: string]: DataBeside };
  figures: { [id: string]: Coded };
  /** Where a tree has come that measures. */
  units?: Tables;
  /** The fact that the choice of a voice tells. */
  tells?: string | undefined;
}

/** Reads what is in the page; throws where the page is not whole. */
export function read(id: string): Data {
  const block = document.getElementById(id);
  if (!block || !block.textContent) throw new Error(`the page has no "${id}"`);
  return { ...(JSON.parse(block.textContent) as Block), topics: topics(template("view-topics")), trees: [], themes: [], facts: {}, cards: {}, beside: {}, figures: {} };
}

/** The topics in the edition's order; the list shows them in groups. */
export function topics(list: ParentNode): Topic[] {
  const place = (row: Element): number => Number(row.getAttribute("data-place"));
  const rows = Array.from(list.querySelectorAll<HTMLButtonElement>("[data-topic]")).sort((a, b) => place(a) - place(b));
  return rows.map((row) => ({
    id: row.value,
    title: row.getAttribute("data-topic") || ((row.querySelector(".says") as Element).textContent as string).trim(), // a row says its title, or what stands in its place
    whole: row.hasAttribute("data-whole"),
    part: { name: `tree-${row.value}`, script: row.getAttribute("data-script") as string },
  }));
}

/** Takes up what a part brings. */
export function receive(data: Data, part: Part): void {
  if (part.html) takeUp(part.html);
  for (const name of ["facts", "cards", "beside", "figures"] as const) Object.assign(data[name], part[name]);
  const prompts = part.prompts || {};
  // A tree brings less of its prompts than the part that has all of them, which may be there already.
  for (const id of Object.keys(prompts)) data.prompts[id] = { ...entry(data.prompts, id), ...(prompts[id] as DataPrompt) };
  if (part.themes) data.themes = part.themes;
  if (part.units) data.units = part.units;
  if (part.about) data.about = part.about;
  if (!part.tree) return;
  const tree = part.tree;
  addWords(tree, (ending) => {
    const sign = signOfEnding(data.safety, ending);
    return sign ? templateOfTold(sign) : templateOfEnding(tree.id, ending);
  });
  const place = (t: Tree): number => data.topics.findIndex((topic) => topic.id === t.id);
  data.trees = data.trees.filter((t) => t.id !== tree.id).concat(tree);
  data.trees.sort((a, b) => place(a) - place(b));
}

/** A topic by its id. */
export function topicOf(data: Data, id: string): Topic | undefined {
  return data.topics.find((t) => t.id === id);
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
