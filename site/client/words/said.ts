// Made from content/en/words.yaml by: go test ./builder/publish -run TestSaidScript -refresh

/** A text by the plural forms of its language. */
export type Forms = { [form: string]: string; other: string };

export const lang = "en";
export const conditionOr = "{before}, or {next}";
export const formatsDate = "{day} {month} {year}";
export const formatsDigits = "0123456789";
export const formatsListAndLast = "{before} and {last}";
export const formatsListAndTwo = "{before} and {last}";
export const formatsListApart = "{before}; {next}";
export const formatsListMiddle = "{before}, {next}";
export const formatsMonth1 = "January";
export const formatsMonth10 = "October";
export const formatsMonth11 = "November";
export const formatsMonth12 = "December";
export const formatsMonth2 = "February";
export const formatsMonth3 = "March";
export const formatsMonth4 = "April";
export const formatsMonth5 = "May";
export const formatsMonth6 = "June";
export const formatsMonth7 = "July";
export const formatsMonth8 = "August";
export const formatsMonth9 = "September";
export const scriptAbout = ": {question}";
export const scriptAboutMe = "About me";
export const scriptAdded = "Added to your sheet: {question}";
export const scriptAnother = "another question would come: {question}";
export const scriptAnsweredChild = "A parent, for their child";
export const scriptAnsweredPerson = "A caregiver, for the person they care for";
export const scriptAnswers = "My answers:";
export const scriptAnswersGiven: Forms = {
  one: "{count} answer",
  other: "{count} answers",
};
export const scriptAnswersNotLoaded = "Your answers did not load";
export const scriptBegun = "You have begun this one.";
export const scriptBring = "What to bring";
export const scriptBroughtBack = "Your earlier sheet is back.";
export const scriptCameFrom = "It came up in “{topic}”.";
export const scriptCameFromSaid = "It came up in “{topic}”. You said: {answers}.";
export const scriptCaution = "Caution";
export const scriptCautionOf = "Caution {number} of {of}";
export const scriptChange = "your answer to: {question}";
export const scriptCleared = "All is cleared. Nothing is left on this page.";
export const scriptClearsIn: Forms = {
  one: "This screen clears in {count} seconds.",
  other: "This screen clears in {count} seconds.",
};
export const scriptClinicPhone = "Clinic: {phone}.";
export const scriptCodeHolds = "The code holds your “{typed}” as {held}.";
export const scriptCodeLeaves = "Your own words are not in the code. The file and the text have them.";
export const scriptCodeOther = "This code was made with another edition of this planner, or before it was changed. It cannot be opened here.";
export const scriptCodeWrong = "This code is not right. Please look at each sign again.";
export const scriptCopied = "Copied.";
export const scriptCopyByHand = "The text is marked. Please copy it now.";
export const scriptDone = "Done. You can take it again.";
export const scriptEmergency = "In an emergency:";
export const scriptEmptyCode = "There is nothing on the sheet in this code, so it was not opened.";
export const scriptEnoughOwn = "You have 100 questions of your own now. Take one off first, then add this one.";
export const scriptEnoughStars = "You have three stars now. Take one star off first, then add this one.";
export const scriptFigureCopied = "Copied. You can paste it anywhere.";
export const scriptFigureCopyByHand = "The question is marked. Copy it with the menu or with Ctrl and C.";
export const scriptFigureNoRoom = "There is no room for it on your sheet. Take one of your own questions off first.";
export const scriptFigureTaken = "The question is on your sheet.";
export const scriptFigureUsed = "The number stands in the box now.";
export const scriptFileKeeps = "The file keeps what you wrote.";
export const scriptFirst = "Please start with these";
export const scriptFirstOne = "It is the first one.";
export const scriptForAnyVisit = "It is one of three questions for any visit.";
export const scriptForLater = "Questions for later ({number})";
export const scriptForMyself = "For myself";
export const scriptForPayer = "For my plan";
export const scriptForPhysician = "For my doctor";
export const scriptForProsthetist = "For my prosthetist";
export const scriptForSheet: Forms = {
  one: "A question for your sheet",
  other: "{count} questions for your sheet",
};
export const scriptForTherapist = "For my therapist";
export const scriptFromSafety = "It came up in the safety questions.";
export const scriptFurther = "More questions about: {theme}";
export const scriptGathered = "You told of {number} things. All of them count. The most pressing comes first.";
export const scriptGoOn = "Go on to: {topic}";
export const scriptIfAnswered = "you had answered “{answer}”";
export const scriptIfAny = "you had given any amount";
export const scriptIfAtLeastUnder = "it were {from} or more, but less than {to}";
export const scriptIfFromTo = "it were from {from} to {to}";
export const scriptIfIs = "it were {amount}";
export const scriptIfLess = "it were {amount} or less";
export const scriptIfMore = "it were {amount} or more";
export const scriptIfOver = "it were more than {amount}";
export const scriptIfOverAtMost = "it were more than {from} and at most {to}";
export const scriptIfOverUnder = "it were more than {from} and less than {to}";
export const scriptIfSkipped = "you had skipped this";
export const scriptIfSo = "If {ifs}";
export const scriptIfTicked = "you had also checked “{answer}”";
export const scriptIfUnder = "it were less than {amount}";
export const scriptIfUnticked = "you had not checked “{answer}”";
export const scriptKept = "Your sheet is as it was.";
export const scriptLastOne = "It is the last one.";
export const scriptLastQuestion = "the last one";
export const scriptLeftAnswers = "answers to questions that have changed";
export const scriptLeftOlder = "It was saved with an earlier version of this planner. Please look through your answers, because some questions have changed.";
export const scriptLeftOut = "Some of it no longer fits and was left out: {what}.";
export const scriptLeftQuestions = "questions to bring that are no longer here";
export const scriptLeftUnits = "numbers without a unit, which we ask for again";
export const scriptLeftWords = "texts of your own that are too long or too many";
export const scriptLinkNoTopic = "Your link names no topic that is here. Nothing you said is lost.";
export const scriptLinkSomeTopics = "Your link names more topics than we could open. You can add topics later.";
export const scriptLoading = "One moment. A part of this page is loading.";
export const scriptMade = "Made on {date}";
export const scriptMind = "Keep in mind";
export const scriptMore = "More questions ({number})";
export const scriptMoreQuestions: Forms = {
  one: "{count} more question",
  other: "{count} more questions",
};
export const scriptMovedDown = "Moved down.";
export const scriptMovedUp = "Moved up.";
export const scriptNewTab = "(opens in a new tab)";
export const scriptNextGroups = "Next: {groups}.";
export const scriptNoAmount = "Please write an amount first.";
export const scriptNoAmountLike = "Please write an amount, or pick what it is like.";
export const scriptNoAnswer = "Please choose an answer first.";
export const scriptNoAnswerAny = "Please check at least one answer first.";
export const scriptNoOwn = "Please write your question first.";
export const scriptNoSign = "Please check what fits, or say that none does.";
export const scriptNoTopic = "Please check at least one topic first.";
export const scriptNotAdvice = "This sheet helps you ask. It is not medical advice and picks no foot.";
export const scriptNotKept = "What was kept in this tab can no longer be read, so the planner starts over.";
export const scriptNotLoaded = "This part could not be loaded. Please try again, or save your sheet as a file.";
export const scriptNotOnSheet = "The question was not put on your sheet.";
export const scriptNotOpenedEmpty = "There is nothing on the sheet in this file, so it was not opened.";
export const scriptNotOpenedLarge = "This file is too large to be a sheet of this planner, so it was not opened.";
export const scriptNotOpenedNewer = "This file was saved with a newer version of this planner. This copy cannot open it.";
export const scriptNotOpenedOther = "This file is not a sheet of this planner. Please choose the file that you saved here.";
export const scriptNotOpenedUnknown = "Nothing in this file fits this planner, so it was not opened. It may be from another edition.";
export const scriptNotRead = "Your device did not read it. Try again.";
export const scriptNotes = "Notes for this visit";
export const scriptNumberNow = "My answer is now {amounts}.";
export const scriptNumberSkipped = "I skipped the question about this number since then.";
export const scriptNumbersChanged: Forms = {
  one: "You changed a number since. Please look at one question of your own.",
  other: "You changed a number since. Please look at {count} questions of your own.",
};
export const scriptOfferTooLong = "The link came with a question that is too long for the sheet, so it was not added.";
export const scriptOnSheet = "The question is on your sheet, under questions of your own.";
export const scriptOnward = "Go on to the topics";
export const scriptOpened = "Your sheet is open again.";
export const scriptOrSkip = "You can also skip this question.";
export const scriptOthers: Forms = {
  one: "{count} more question, by whom to ask",
  other: "{count} more questions, by whom to ask",
};
export const scriptOwnHeels = "My usual heel: {usual}. The other pair: {other}. The dashed line is as high as my usual heel.";
export const scriptOwnLoad = "What I carry: {amount}. The box is as large as so much water, beside a person of 172 cm (5 ft 8 in).";
export const scriptOwnQuestions = "My own questions";
export const scriptOwnSideSlope = "My slope from side to side: {amount}.";
export const scriptOwnSlope = "My slope: {amount}. Drawn standing still on it, facing down.";
export const scriptOwnSlopeBends = "The ankle bends {degrees}. The leg can stand upright, but it adds weight, and you may miss some push.";
export const scriptOwnSlopeStays = "The ankle stays. It is firm and light, but the leg tips and the knee is pushed.";
export const scriptPosts = "Your wishes as posts, from left to right: {wishes}.";
export const scriptPutBack = "Back on your sheet: {question}";
export const scriptRatioTo = "to";
export const scriptReadAloud = "Read it to me";
export const scriptRemaining: Forms = {
  one: "at most {count} more",
  other: "at most {count} more",
};
export const scriptReplyAnswered = "Answered.";
export const scriptReplyLater = "Later.";
export const scriptReplyWrite = "They will write back.";
export const scriptReworded = "It now reads: {question}";
export const scriptSaveAnswers = "Save my answers: {topic}";
export const scriptSaved = "The file is yours. Keep it where only you can see it.";
export const scriptSheet = "My sheet";
export const scriptSheetNotLoaded = "Your sheet did not load";
export const scriptSkipped = "Skipped";
export const scriptStars = "{number} of 3 stars used.";
export const scriptStillHere = "Your answers from before are still here, in this tab.";
export const scriptStopReading = "Stop reading";
export const scriptTakenOff = "Taken off your sheet: {question}";
export const scriptTie = "Tie {number}: {wishes}.";
export const scriptTieMayGive = "Tie {number}, dashed: {wishes}.";
export const scriptTitle = "My questions for this visit";
export const scriptToldBefore = "You told us this before.";
export const scriptTooLong = "This is a long sheet. It may print on two pages. To fit one, take some questions off.";
export const scriptTooLongBy: Forms = {
  one: "This is too long by {count} character, so it is not on your sheet yet. At most {most} fit. Please shorten it.",
  other: "This is too long by {count} characters, so it is not on your sheet yet. At most {most} fit. Please shorten it.",
};
export const scriptTooLongLarge = "This is a long sheet. It may print on three pages. To fit two, take some questions off.";
export const scriptTopicNotLoaded = "“{topic}” did not load";
export const scriptUsed = "{number} of {most} characters used.";
export const scriptVisit = "After the visit";
export const scriptWhichUnit = "Which unit is that? Please pick one below the box, or write it behind the {typed}.";
export const scriptWishes = "({count} of {of})";
export const scriptYouAdded = "You put it on your sheet.";
export const scriptYourAnswer = "(your answer)";
