// What a question says without an answer, and which steps led to it. It looks at no page.

import { Step } from "../walk/walker";
import * as words from "../words/words";
import { Question } from "./tree";

/** What is said where a question has no answer yet. */
export function missing(question: Question): string {
  let text = question.any ? words.noAnswerAny : words.noAnswer;
  if (question.measure) text = question.measure.likes ? words.noAmountLike : words.noAmount;
  return text + (question.skip ? words.orSkip() : "");
}

/** The steps that come before a question; all of them where it is not yet answered. */
export function before(steps: Step[], id: string): Step[] {
  const at = steps.findIndex((s) => s.question === id);
  return at < 0 ? steps : steps.slice(0, at);
}
