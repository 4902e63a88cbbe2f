// The sheet as plain text: what stands on the paper, in its order, and the
// reader's answers behind it.

import { about } from "../sheet/about";
import { App } from "../state/app";
import { askWhole } from "../state/amounts";
import { cautions } from "../sheet/caution";
import { answered, forPaper } from "../sheet/compose";
import { slot, template } from "../page/dom";
import { blocks, notes, worded } from "../sheet/notes";
import * as words from "../words/words";

export function plainText(app: App): string {
  const state = app.state;
  const sheet = forPaper(state);
  const { grave, other } = cautions(app);
  const edition = state.data.edition;
  const emergency = `${words.emergency} ${edition.emergency || ""}`;
  const lines = [words.title(), words.made(new Date())];
  const part = (title: string, items: string[]): void => {
    if (items.length) lines.push("", title, ...items.map((text) => `- ${text}`));
  };
  const asks = (title: string, ids: string[]): void => part(title, ids.map((id) => askWhole(state, id)));

  for (const caution of grave) lines.push("", ...blocks(caution));
  if (grave.length) lines.push(emergency);
  lines.push("", said("decide"));
  const me = about(state).join(" ");
  if (me) lines.push("", words.aboutMe(), me);
  asks(words.first, sheet.first);
  for (const section of sheet.sections) asks(section.title, section.prompts);
  asks(words.ownQuestions, sheet.own);
  part(words.mind, other.map((caution) => blocks(caution).join(" ")));
  part(words.notes, notes(state).map((card) => worded(card).join(" ")));
  part(words.bring, [said("always")].concat(sheet.bring.map((id) => state.ask(id))));
  for (const one of answered(state)) part(`${words.answers} ${one.title}`, one.lines.map((l) => `${l.asked} ${l.said}`));
  lines.push("", emergency, words.notAdvice, said("made-by"), [edition.name, edition.version].filter((s) => s).join(", "));
  return lines.join("\n");
}

/** What stands on every sheet: what is to be decided, what everybody brings, who made it. */
function said(name: string): string {
  return slot(template("view-paper"), name).textContent as string;
}
