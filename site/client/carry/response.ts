// The reader's own answers to one tree as a QuestionnaireResponse of HL7 FHIR
// R4: nobody's name, no date, no order, no score, no level. It knows no page.
//
// Who answers for another is told under "source", which in R4 is whoever answered the questions about the subject: a RelatedPerson, in
// words and with no record behind it. Of those who speak for themselves nothing stands there, and R4 then takes nothing for granted.
//
// A line that the reader took off "About me" is not in here, and neither is one that stands there: those are sentences, and this holds
// what was answered, as the page of answers and the text's "My answers" do. The answer itself stays. The form's conditions rest on it, so without it
// the answers behind it would be to questions that the form does not ask.

import { Form, Split } from "../types/exchange";
import { Tables, Unit, exact, refused } from "../sums/quantity";
import { Answers, Step, Table, TableMeasure, TableRow, amount, entry, isSkip, walk } from "../walk/walker";

export type { Form };

/** The words of questions and answers, where the page has them. */
export interface Worded {
  questions: { [id: string]: { text?: string; answers?: { id: string; text?: string }[]; measure?: { likes?: { id: string; text?: string }[] } } };
}

interface Item {
  linkId: string;
  text?: string;
  answer?: object[];
  item?: Item[];
}

/** Gives the JSON text. Only answers on the path are in it; by says who gave them for another. */
export function response(table: Table & Partial<Worded>, form: Form, answers: Answers, units?: Tables, by?: string): string {
  const path = walk(table, answers, units);
  const r = {
    resourceType: "QuestionnaireResponse",
    questionnaire: form.questionnaire,
    status: path.ending ? "completed" : "in-progress",
    source: by ? { type: "RelatedPerson", display: plain(by) } : undefined,
    item: path.steps.map((step) => itemOf(table, form, path.steps, step, units)),
  };
  if (!r.item.length) return JSON.stringify({ ...r, item: undefined }, null, 1) + "\n";
  return JSON.stringify(r, null, 1) + "\n";
}

function itemOf(table: Table & Partial<Worded>, form: Form, steps: Step[], step: Step, units?: Tables): Item {
  const row = entry(table.questions, step.question) as TableRow;
  const words = (table as Partial<Worded>).questions && entry((table as Worded).questions, step.question);
  const linkId = linkOf(table, form, steps, step.question, units);
  const text = words && words.text && plain(words.text);
  let item: Item = text ? { linkId, text } : { linkId };
  const code = (id: string): object => {
    const all = ((words && words.answers) || []).concat((words && words.measure && words.measure.likes) || []);
    const found = all.find((a) => a.id === id);
    const coding = { system: `${form.system}:${step.question}`, code: id };
    return { valueCoding: found && found.text ? { ...coding, display: plain(found.text) } : coding };
  };
  const m = row.measure;
  if (!m) item.answer = step.chosen.map(code);
  else {
    const id = step.chosen[0] as string;
    const named = isSkip(row, step.chosen) || (m.likes || []).some((l) => l.id === id);
    item.item = [named ? { linkId: linkId + ".other", answer: [code(id)] } : { linkId: linkId + ".amount", answer: [{ valueQuantity: quantityOf(m, id, units) }] }];
  }
  const nest = (form.nest && entry(form.nest, linkId)) || 0;
  for (let i = nest; i > 0; i--) item = { linkId: `${linkId}.when-${i}`, item: [item] };
  return item;
}

/** A text with plain spaces for all others, which R4 takes for no sign; plainSpaces in builder/exchange does the same. */
function plain(text: string): string {
  return text.replace(/[^\S \r\n\t]/g, " ");
}

/** The amount as it was given, in the measure's own unit, which is the one that the form takes. */
function quantityOf(m: TableMeasure, typed: string, units?: Tables): object {
  const v = amount(m, typed, units);
  const u = units && units.units.find((unit: Unit) => unit.code === m.unit);
  if (refused(v) || !u) throw new Error(`"${typed}" is no amount`);
  const value = Math.round(((exact(v) * u.den) / u.num) * 1e9) / 1e9;
  return { value, ...(u.mark ? { unit: u.mark } : {}), system: "http://unitsofmeasure.org", code: u.code };
}

/** The item of a question; one that stands in several copies is told apart by earlier answers. */
function linkOf(table: Table, form: Form, steps: Step[], question: string, units?: Tables): string {
  let link = question;
  for (const split of (form.split && entry(form.split, question)) || []) {
    const row = entry(table.questions, split.by) as TableRow;
    const step = steps.find((s) => s.question === split.by);
    link += `.${split.by}-${step ? keyOf(row, split, step.chosen, units) : "unknown"}`;
  }
  return link;
}

/** The reference is key in builder/exchange. */
function keyOf(row: TableRow, split: Split, chosen: string[], units?: Tables): string {
  if (isSkip(row, chosen) || (!row.measure && chosen.indexOf("unsure") >= 0)) return "unknown";
  const m = row.measure;
  if (m) {
    const v = amount(m, chosen[0] as string, units);
    const i = refused(v) ? 0 : Math.round((v.value - m.from) / m.step);
    const named = split.class && entry(split.class, String(i));
    return String(named === undefined ? i : named);
  }
  return chosen.filter((id) => (split.asked || []).indexOf(id) >= 0).join("+") || "else";
}
