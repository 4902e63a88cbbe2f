// What the script itself says. Words that never change stand in the page's
// templates; here are those that name a thing or count. The texts are those of
// content/en/words.yaml: said.ts has them, and the bundler puts in its place what is
// said in the language of a page.

import { Gaps, fill as filled } from "./fill";
import {
  lang,
  type Forms,
  scriptForMyself,
  scriptForPayer,
  scriptForPhysician,
  scriptAnsweredChild,
  scriptAnsweredPerson,
  scriptForProsthetist,
  scriptForTherapist,
  scriptOthers,
  conditionOr,
  formatsDate,
  formatsDigits,
  formatsListAndLast,
  formatsListAndTwo,
  formatsListApart,
  formatsListMiddle,
  formatsMonth1,
  formatsMonth2,
  formatsMonth3,
  formatsMonth4,
  formatsMonth5,
  formatsMonth6,
  formatsMonth7,
  formatsMonth8,
  formatsMonth9,
  formatsMonth10,
  formatsMonth11,
  formatsMonth12,
  scriptAbout,
  scriptAdded,
  scriptAnother,
  scriptAnswersGiven,
  scriptCameFrom,
  scriptCameFromSaid,
  scriptCaution,
  scriptCautionOf,
  scriptChange,
  scriptClearsIn,
  scriptClinicPhone,
  scriptCodeHolds,
  scriptFirstOne,
  scriptForLater,
  scriptForSheet,
  scriptFurther,
  scriptGathered,
  scriptGoOn,
  scriptIfAnswered,
  scriptIfAtLeastUnder,
  scriptIfFromTo,
  scriptIfIs,
  scriptIfLess,
  scriptIfMore,
  scriptIfOver,
  scriptIfOverAtMost,
  scriptIfOverUnder,
  scriptIfSo,
  scriptIfTicked,
  scriptIfUnder,
  scriptIfUnticked,
  scriptLastOne,
  scriptLastQuestion,
  scriptLeftAnswers,
  scriptLeftOlder,
  scriptLeftOut,
  scriptLeftQuestions,
  scriptLeftUnits,
  scriptLeftWords,
  scriptMade,
  scriptMore,
  scriptMoreQuestions,
  scriptMovedDown,
  scriptMovedUp,
  scriptNewTab,
  scriptNextGroups,
  scriptNotOpenedEmpty,
  scriptNotOpenedLarge,
  scriptNotOpenedNewer,
  scriptNotOpenedOther,
  scriptNotOpenedUnknown,
  scriptNumberNow,
  scriptNumbersChanged,
  scriptOrSkip,
  scriptPutBack,
  scriptRemaining,
  scriptReplyAnswered,
  scriptReplyLater,
  scriptReplyWrite,
  scriptReworded,
  scriptSaveAnswers,
  scriptStars,
  scriptTakenOff,
  scriptTooLong,
  scriptTooLongBy,
  scriptTooLongLarge,
  scriptTopicNotLoaded,
  scriptUsed,
  scriptWhichUnit,
  scriptYourAnswer,
  scriptOwnHeels,
  scriptOwnLoad,
  scriptOwnSideSlope,
  scriptOwnSlope,
  scriptOwnSlopeBends,
  scriptPosts,
  scriptTie,
  scriptTieMayGive,
  scriptWishes,
  scriptTitle,
  scriptAboutMe,
} from "./said";

export {
  scriptReadAloud as readAloud,
  scriptStopReading as stopReading,
  scriptNotRead as notRead,
  scriptRatioTo as ratioTo,
  scriptNoAnswer as noAnswer,
  scriptNoAnswerAny as noAnswerAny,
  scriptNoAmount as noAmount,
  scriptNoAmountLike as noAmountLike,
  scriptNoTopic as noTopic,
  scriptLinkNoTopic as linkNoTopic,
  scriptLinkSomeTopics as linkSomeTopics,
  scriptNoOwn as noOwn,
  scriptSheet as sheet,
  scriptSkipped as skipped,
  scriptToldBefore as toldBefore,
  scriptCleared as cleared,
  scriptOnSheet as onSheet,
  scriptEnoughOwn as enoughOwn,
  scriptOfferTooLong as offerTooLong,
  scriptNotOnSheet as notOnSheet,
  scriptOwnSlopeStays as ownSlopeStays,
  scriptOwnQuestions as ownQuestions,
  scriptNumberSkipped as numberSkipped,
  scriptFirst as first,
  scriptDone as done,
  scriptBegun as begun,
  scriptEnoughStars as enoughStars,
  scriptBring as bring,
  scriptNotes as notes,
  scriptMind as mind,
  scriptAnswers as answers,
  scriptEmergency as emergency,
  scriptNotAdvice as notAdvice,
  scriptVisit as visit,
  scriptStillHere as stillHere,
  scriptSaved as saved,
  scriptOpened as opened,
  scriptNotOpenedLarge as tooLarge,
  scriptNotKept as notKept,
  scriptKept as kept,
  scriptBroughtBack as broughtBack,
  scriptEmptyCode as emptyCode,
  scriptCopied as copied,
  scriptCopyByHand as copyByHand,
  scriptIfSkipped as ifSkipped,
  scriptIfAny as ifAny,
  scriptFromSafety as fromSafety,
  scriptNoSign as noSign,
  scriptOnward as onward,
  scriptForAnyVisit as forAnyVisit,
  scriptYouAdded as youAdded,
  scriptCodeWrong as codeWrong,
  scriptCodeOther as codeOther,
  scriptCodeLeaves as codeLeaves,
  scriptFileKeeps as fileKeeps,
  scriptLoading as loading,
  scriptAnswersNotLoaded as answersNotLoaded,
  scriptSheetNotLoaded as sheetNotLoaded,
  scriptNotLoaded as notLoaded,
  scriptFigureCopied as figureCopied,
  scriptFigureCopyByHand as figureCopyByHand,
  scriptFigureTaken as figureTaken,
  scriptFigureNoRoom as figureNoRoom,
  scriptFigureUsed as figureUsed,
} from "./said";

declare const OTHER_LANGUAGE: boolean;

/** A text with the digits that the language has, in place of 0 to 9. */
export function digits(text: string): string {
  if (!OTHER_LANGUAGE) return text;
  const ten = Array.from(formatsDigits);
  return text.replace(/[0-9]/g, (d) => ten[Number(d)] as string);
}

/** A text with its gaps filled; numbers have the digits of the language. */
function fill(text: string, gaps: Gaps): string {
  if (!OTHER_LANGUAGE) return filled(text, gaps);
  const out: Gaps = {};
  for (const gap of Object.keys(gaps)) out[gap] = typeof gaps[gap] === "number" ? digits(String(gaps[gap])) : (gaps[gap] as string);
  return filled(text, out);
}

/** A text in the form that goes with a number, which fills {count}. */
function counted(forms: Forms, count: number, gaps: Gaps = {}): string {
  const rules = typeof Intl === "object" && Intl.PluralRules ? new Intl.PluralRules(lang).select(count) : count === 1 ? "one" : "other";
  return fill(forms[rules] || forms.other, { ...gaps, count });
}

/** Names as one says them: "a, b and c". */
function and(names: string[]): string {
  const last = names[names.length - 1] || "";
  if (names.length < 2) return last;
  const before = names.slice(0, -1).reduce((all, next) => fill(formatsListMiddle, { before: all, next }));
  return fill(names.length === 2 ? formatsListAndTwo : formatsListAndLast, { before, last });
}

/** Above questions, by whom to ask; what names nobody is for the prosthetist. */
/** What is said in the voice at hand for a text in the reader's own; that voice's part brings it (planner/asides.ts). */
function voiced(own: string): string {
  return ((globalThis as { keelpathSaid?: { [own: string]: string } }).keelpathSaid || {})[own] || own;
}

export const title = () => voiced(scriptTitle);
export const aboutMe = () => voiced(scriptAboutMe);

const WHOM: { [whom: string]: string } = { prosthetist: scriptForProsthetist, physician: scriptForPhysician, therapist: scriptForTherapist, payer: scriptForPayer, myself: scriptForMyself };

export const forWhom = (whom: string) => voiced(WHOM[whom] || scriptForProsthetist);

const ANSWERED: { [voice: string]: string } = { child: scriptAnsweredChild, person: scriptAnsweredPerson };

/** Who answered for another, by the voice; nothing for those who speak for themselves. */
export const answeredBy = (voice: string): string | undefined => ANSWERED[voice];

/** A sentence with names in its gap {these}. */
export const these = (sentence: string, names: string[]) => fill(sentence, { these: joined(formatsListApart, names) });

function joined(text: string, all: string[]): string {
  return all.length ? all.reduce((before, next) => fill(text, { before, next })) : "";
}

/** Behind a figure's question that was made with another number than the reader tells now. */
export const numberNow = (amounts: string[]) => fill(scriptNumberNow, { amounts: and(amounts) });

export const others = (count: number) => counted(scriptOthers, count);
export const numbersChanged = (count: number) => counted(scriptNumbersChanged, count);

/** Why a file was not opened. */
export const notOpened = {
  large: scriptNotOpenedLarge,
  other: scriptNotOpenedOther,
  newer: scriptNotOpenedNewer,
  empty: scriptNotOpenedEmpty,
  unknown: scriptNotOpenedUnknown,
};

const left = { answers: scriptLeftAnswers, units: scriptLeftUnits, questions: scriptLeftQuestions, words: scriptLeftWords };

/** What of a saved sheet has changed or is missing. */
export function leftOut(found: { older: boolean; left: (keyof typeof left)[] }): string {
  const what = joined(formatsListApart, found.left.map((kind) => left[kind]));
  return [found.older ? scriptLeftOlder : "", what && fill(scriptLeftOut, { what })].filter((s) => s).join(" ");
}

/** Behind a sentence. */
export const orSkip = () => " " + scriptOrSkip;
export const newTab = () => " " + scriptNewTab;
export const yourAnswer = () => " " + scriptYourAnswer;
export const change = (question: string) => " " + fill(scriptChange, { question });
export const ownSlope = (amount: string) => fill(voiced(scriptOwnSlope), { amount });
export const ownSlopeBends = (degrees: string) => fill(voiced(scriptOwnSlopeBends), { degrees });
export const ownSideSlope = (amount: string) => fill(voiced(scriptOwnSideSlope), { amount });
export const ownHeels = (usual: string, other: string) => fill(voiced(scriptOwnHeels), { usual, other });
export const ownLoad = (amount: string) => fill(voiced(scriptOwnLoad), { amount });

export const about = (question: string) => fill(scriptAbout, { question });

export const whichUnit = (typed: string) => fill(scriptWhichUnit, { typed });
export const answersGiven = (count: number) => counted(scriptAnswersGiven, count);
export const forSheet = (count: number) => counted(scriptForSheet, count);
export const moreQuestions = (count: number) => counted(scriptMoreQuestions, count);
export const remaining = (count: number) => (count ? counted(scriptRemaining, count) : scriptLastQuestion);

export const ifAnswered = (answer: string) => fill(scriptIfAnswered, { answer });
export const ifTicked = (answer: string) => fill(scriptIfTicked, { answer });
export const ifUnticked = (answer: string) => fill(scriptIfUnticked, { answer });
export const ifLess = (amount: string) => fill(scriptIfLess, { amount });
export const ifMore = (amount: string) => fill(scriptIfMore, { amount });
export const ifIs = (amount: string) => fill(scriptIfIs, { amount });
export const ifOver = (amount: string) => fill(scriptIfOver, { amount });
export const ifUnder = (amount: string) => fill(scriptIfUnder, { amount });

/** An end of a stretch of amounts; where it is open, the amount is not part of the stretch. */
export interface End {
  open: boolean;
  amount: string;
}

export function ifWithin(from: End, to: End): string {
  const text = from.open ? (to.open ? scriptIfOverUnder : scriptIfOverAtMost) : to.open ? scriptIfAtLeastUnder : scriptIfFromTo;
  return fill(text, { from: from.amount, to: to.amount });
}

export function ifSo(all: string[]): string {
  const ifs = joined(conditionOr, all);
  return fill(scriptIfSo, { ifs });
}

export const another = (question: string) => fill(scriptAnother, { question });
export const goOn = (topic: string) => fill(scriptGoOn, { topic });
export const further = (theme: string) => fill(scriptFurther, { theme });
export const more = (number: number) => fill(scriptMore, { number });
export const stars = (number: number) => fill(scriptStars, { number });
export const used = (number: number, most: number) => fill(scriptUsed, { number, most });
export const tooLongBy = (count: number, most: number) => counted(scriptTooLongBy, count, { most });
export const takenOff = (question: string) => fill(scriptTakenOff, { question });
export const putBack = (question: string) => fill(scriptPutBack, { question });
export const added = (question: string) => fill(scriptAdded, { question });

const months = [formatsMonth1, formatsMonth2, formatsMonth3, formatsMonth4, formatsMonth5, formatsMonth6, formatsMonth7, formatsMonth8, formatsMonth9, formatsMonth10, formatsMonth11, formatsMonth12];

export function made(on: Date): string {
  const date = fill(formatsDate, { day: on.getDate(), month: months[on.getMonth()] as string, year: on.getFullYear() });
  return fill(scriptMade, { date });
}

export const tooLong = (large: boolean) => (large ? scriptTooLongLarge : scriptTooLong);

export function cameFrom(topic: string, said: string[]): string {
  const answers = joined(formatsListApart, said);
  return answers ? fill(scriptCameFromSaid, { topic, answers }) : fill(scriptCameFrom, { topic });
}

export function moved(did: boolean, by: 1 | -1): string {
  if (did) return by < 0 ? scriptMovedUp : scriptMovedDown;
  return by < 0 ? scriptFirstOne : scriptLastOne;
}

export const reworded = (question: string) => fill(scriptReworded, { question });

export function reply(mark: string | undefined, said: string | undefined): string {
  const marks: { [mark: string]: string } = { answered: scriptReplyAnswered, later: scriptReplyLater, write: scriptReplyWrite };
  return [(mark && marks[mark]) || "", said || ""].filter((s) => s).join(" ");
}

export function clinicPhone(number: string): string {
  const phone = number.replace(/[.\s]+$/, "");
  return fill(scriptClinicPhone, { phone });
}

export const clearsIn = (seconds: number) => counted(scriptClearsIn, seconds);

export function nextGroups(titles: string[]): string {
  const groups = joined(formatsListApart, titles.map((t) => t.charAt(0).toLowerCase() + t.slice(1)));
  return groups && fill(scriptNextGroups, { groups });
}

export const gathered = (number: number) => (number > 1 ? fill(scriptGathered, { number }) : "");
export const caution = (number: number, of: number) => (of > 1 ? fill(scriptCautionOf, { number, of }) : scriptCaution);
export const forLater = (number: number) => fill(scriptForLater, { number });
export const topicNotLoaded = (topic: string) => fill(scriptTopicNotLoaded, { topic });
export const codeHolds = (typed: string, held: string) => fill(scriptCodeHolds, { typed, held });
export const saveAnswers = (topic: string) => fill(scriptSaveAnswers, { topic });

export const posts = (wishes: string[]) => fill(scriptPosts, { wishes: joined(formatsListMiddle, wishes) });
export const tie = (number: number, wishes: string[], mayGive: boolean) => fill(mayGive ? scriptTieMayGive : scriptTie, { number, wishes: joined(formatsListMiddle, wishes) });
export const wishes = (count: number, of: number) => fill(scriptWishes, { count, of });
