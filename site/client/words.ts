// What the script itself says. Words that never change stand in the page's
// templates; here are those that name a thing or count.

export const noAnswer = "Please choose an answer first.";
export const noAnswerAny = "Please tick at least one answer first.";
export const noAmount = "Please write an amount first.";
export const noAmountLike = "Please write an amount, or pick what it is like.";
export const orSkip = " You can also skip this question.";
export const noTopic = "Please tick at least one topic first.";
export const noOwn = "Please write your question first.";
export const sheet = "My sheet";
export const skipped = "Skipped";
export const cleared = "All is cleared. Nothing is left on this page.";
export const onSheet = "The question is on your sheet, under questions of your own.";
export const notOnSheet = "The question was not put on your sheet.";
export const general = "Three questions for any visit";
export const ownQuestions = "My own questions";
export const starred = "These matter most to me";
export const done = "Done. You can take it again.";
export const begun = "You have begun this one.";
export const newTab = " (opens in a new tab)";
export const enoughStars = "You have three stars now. Take one star off first, then add this one.";
export const twoPages = "This is a long sheet. It may print on two pages. To fit one page, take some questions off.";

export function remaining(left: number): string {
  if (left === 0) return "This is the last question.";
  return `At most ${left} ${left === 1 ? "question" : "questions"} left after this one.`;
}

export function change(question: string): string {
  return ` your answer to: ${question}`;
}

export const ifSkipped = "you had skipped this";
export const ifAny = "you had given any amount";

export function ifAnswered(text: string): string {
  return `you had answered “${text}”`;
}

export function ifTicked(text: string): string {
  return `you had also ticked “${text}”`;
}

export function ifUnticked(text: string): string {
  return `you had not ticked “${text}”`;
}

export function ifLess(amount: string): string {
  return `it were ${amount} or less`;
}

export function ifMore(amount: string): string {
  return `it were ${amount} or more`;
}

export function ifIs(amount: string): string {
  return `it were ${amount}`;
}

export function ifBetween(from: string, to: string): string {
  return `it were from ${from} to ${to}`;
}

export function ifSo(ifs: string[]): string {
  return `If ${ifs.join(", or ")}`;
}

export function another(question: string): string {
  return `another question would come: ${question}`;
}

export function goOn(tree: string): string {
  return `Go on to: ${tree}`;
}

export function further(topic: string): string {
  return `More questions about: ${topic}`;
}

export function more(count: number): string {
  return `More questions (${count})`;
}

export function about(ask: string): string {
  return `: ${ask}`;
}

export function stars(count: number): string {
  return `${count} of 3 stars used.`;
}

export function takenOff(ask: string): string {
  return `Taken off your sheet: ${ask}`;
}

export function putBack(ask: string): string {
  return `Back on your sheet: ${ask}`;
}

export function added(ask: string): string {
  return `Added to your sheet: ${ask}`;
}

export function made(date: Date): string {
  return `Made on ${date.toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" })}`;
}
