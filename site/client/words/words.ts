// What the script itself says. Words that never change stand in the page's
// templates; here are those that name a thing or count.

export const noAnswer = "Please choose an answer first.";
export const noAnswerAny = "Please check at least one answer first.";
export const noAmount = "Please write an amount first.";
export const noAmountLike = "Please write an amount, or pick what it is like.";
export const orSkip = " You can also skip this question.";
export const noTopic = "Please check at least one topic first.";
export const noOwn = "Please write your question first.";
export const sheet = "My sheet";
export const skipped = "Skipped";
export const toldBefore = "You told us this before.";
export const cleared = "All is cleared. Nothing is left on this page.";
export const onSheet = "The question is on your sheet, under questions of your own.";
export const enoughOwn = "You have 100 questions of your own now. Take one off first, then add this one.";
export const offerTooLong = "The link came with a question that is too long for the sheet, so it was not added.";
export const notOnSheet = "The question was not put on your sheet.";
export const general = "Three questions for any visit";
export const ownQuestions = "My own questions";

/** Behind a figure's question that was made with another number than the reader tells now. */
export function numberNow(amounts: string[]): string {
  return `My answer is now ${amounts.join(" and ")}.`;
}
export const numberSkipped = "I skipped the question about this number since then.";

export function numbersChanged(count: number): string {
  return `You changed a number since. Please look at ${count === 1 ? "one question" : `${count} questions`} of your own.`;
}
export const starred = "These matter most to me";
export const done = "Done. You can take it again.";
export const begun = "You have begun this one.";
export const newTab = " (opens in a new tab)";
export const enoughStars = "You have three stars now. Take one star off first, then add this one.";
export const title = "My questions for this visit";
export const day = "A normal day, as I want it:";
export const bring = "What to bring";
export const notes = "Notes for this visit";
export const mind = "Keep in mind";
export const answers = "My answers:";
export const emergency = "In an emergency:";
export const notAdvice = "This sheet helps you ask. It is not medical advice and picks no foot.";
export const visit = "After the visit";
export const stillHere = "Your answers from before are still here, in this tab.";
export const saved = "The file is yours. Keep it where only you can see it.";
export const opened = "Your sheet is open again.";
export const notKept = "What was kept in this tab can no longer be read, so the planner starts over.";
export const kept = "Your sheet is as it was.";
export const broughtBack = "Your earlier sheet is back.";
export const emptyCode = "There is nothing on the sheet in this code, so it was not opened.";
export const copied = "Copied.";
export const copyByHand = "The text is marked. Please copy it now.";

/** Why a file was not opened. */
export const notOpened = {
  large: "This file is too large to be a sheet of this planner, so it was not opened.",
  other: "This file is not a sheet of this planner. Please choose the file that you saved here.",
  newer: "This file was saved with a newer version of this planner. This copy cannot open it.",
  empty: "There is nothing on the sheet in this file, so it was not opened.",
  unknown: "Nothing in this file fits this planner, so it was not opened. It may be from another edition.",
};

const left = {
  answers: "answers to questions that have changed",
  units: "numbers without a unit, which we ask for again",
  questions: "questions to bring that are no longer here",
  words: "texts of your own that are too long or too many",
};

/** What of a saved sheet has changed or is missing. */
export function leftOut(found: { older: boolean; left: (keyof typeof left)[] }): string {
  const older = found.older ? "It was saved with an earlier version of this planner. Please look through your answers, because some questions have changed." : "";
  const missing = found.left.length ? `Some of it no longer fits and was left out: ${found.left.map((what) => left[what]).join("; ")}.` : "";
  return [older, missing].filter((s) => s).join(" ");
}

export function whichUnit(typed: string): string {
  return `Which unit is that? Please pick one below the box, or write it behind the ${typed}.`;
}

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
  return `you had also checked “${text}”`;
}

export function ifUnticked(text: string): string {
  return `you had not checked “${text}”`;
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

export function ifOver(amount: string): string {
  return `it were more than ${amount}`;
}

export function ifUnder(amount: string): string {
  return `it were less than ${amount}`;
}

/** An end of a stretch of amounts; where it is open, the amount is not part of the stretch. */
export interface End {
  open: boolean;
  amount: string;
}

export function ifWithin(from: End, to: End): string {
  if (!from.open && !to.open) return `it were from ${from.amount} to ${to.amount}`;
  const below = to.open ? `less than ${to.amount}` : `at most ${to.amount}`;
  return from.open ? `it were more than ${from.amount} and ${below}` : `it were ${from.amount} or more, but ${below}`;
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

export function further(theme: string): string {
  return `More questions about: ${theme}`;
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

export function used(count: number, most: number): string {
  return `${count} of ${most} characters used.`;
}

export function tooLongBy(count: number, most: number): string {
  return `This is too long by ${count} ${count === 1 ? "character" : "characters"}, so it is not on your sheet yet. At most ${most} fit. Please shorten it.`;
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

export function tooLong(large: boolean): string {
  const [may, fit] = large ? ["three", "two"] : ["two", "one"];
  return `This is a long sheet. It may print on ${may} pages. To fit ${fit}, take some questions off.`;
}

export function cameFrom(tree: string, said: string[]): string {
  return said.length ? `It came up in “${tree}”. You said: ${said.join("; ")}.` : `It came up in “${tree}”.`;
}

export function moved(did: boolean, by: 1 | -1): string {
  if (did) return by < 0 ? "Moved up." : "Moved down.";
  return by < 0 ? "It is the first one." : "It is the last one.";
}

export function reworded(ask: string): string {
  return `It now reads: ${ask}`;
}

export function reply(mark: string | undefined, said: string | undefined): string {
  const marks: { [mark: string]: string } = { answered: "Answered.", later: "Later.", write: "They will write back." };
  return [(mark && marks[mark]) || "", said || ""].filter((s) => s).join(" ");
}

export function clinicPhone(phone: string): string {
  return `Clinic: ${phone.replace(/[.\s]+$/, "")}.`;
}

export function clearsIn(seconds: number): string {
  return `This screen clears in ${seconds} seconds.`;
}

export const fromSafety = "It came up in the safety questions.";
export const yourAnswer = " (your answer)";
export const noSign = "Please check what fits, or say that none does.";
export const onward = "Go on to the topics";

export function nextGroups(titles: string[]): string {
  return titles.length ? `Next: ${titles.map((t) => t.charAt(0).toLowerCase() + t.slice(1)).join("; ")}.` : "";
}

export function gathered(count: number): string {
  return count > 1 ? `You told of ${count} things. All of them count. The most pressing comes first.` : "";
}

export function caution(n: number, of: number): string {
  return of > 1 ? `Caution ${n} of ${of}` : "Caution";
}

export function forLater(count: number): string {
  return `Questions for later (${count})`;
}

export const forAnyVisit = "It is one of three questions for any visit.";
export const youAdded = "You put it on your sheet.";
export const codeWrong = "This code is not right. Please look at each sign again.";
export const codeOther = "This code was made with another edition of this planner, or before it was changed. It cannot be opened here.";
export const codeLeaves = "Your own words are not in the code. The file and the text have them.";
export const fileKeeps = "The file keeps what you wrote.";
export const loading = "One moment. A part of this page is loading.";
export const answersNotLoaded = "Your answers did not load";
export const sheetNotLoaded = "Your sheet did not load";

export function topicNotLoaded(topic: string): string {
  return `“${topic}” did not load`;
}

export const notLoaded = "This part could not be loaded. Please try again, or save your sheet as a file.";

export function codeHolds(typed: string, held: string): string {
  return `The code holds your “${typed}” as ${held}.`;
}

export function saveAnswers(tree: string): string {
  return `Save my answers: ${tree}`;
}
