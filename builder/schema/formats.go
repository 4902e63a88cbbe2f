package schema

import (
	"fmt"
	"slices"
	"sync"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/formula"
	"keelpath/builder/library"
	"keelpath/builder/quantity"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// kinds are made when they are asked for: those of drawings take every drawing, and few commands show a schema.
var kinds = sync.OnceValue(func() []Kind {
	return []Kind{
		{"tree", "trees/ID.yaml", "A decision tree that leads to questions to bring.", treeForm()},
		{"cards", "trees/cards.yaml", "Short notes that answers add to the sheet.", keys(key{"cards", may, "The cards, by id.", each(cardForm)})},
		{"case", "trees/cases/ID.yaml", "A teaching case: an invented person, beats for a session, and what one changed fact changes.", teachingForm()},
		{"prompts", "trees/prompts.yaml", "Questions to bring, by theme.", keys(
			key{"general", may, "The questions that open every sheet.", each(promptForm)},
			key{"themes", may, "The themes, by id, each with its prompts.", each(themeForm)},
		)},
		{"safety", "trees/safety.yaml", "The one screen of signs that comes before every topic. A layer may add signs to it, and change none.", screenForm},
		{"told", "trees/told.yaml", "What a reader can tell.", keys(
			key{"about", may, "The parts of \"About me\" on the sheet, in their order.", set(id())},
			key{"facts", may, "The facts, by id.", each(factForm)},
			key{"answers", may, "What answers say there, by topic and question.", each(each(aboutForm))},
		)},
		{"planner", "trees/planner.yaml", "The order in which the planner lists the trees.", keys(key{"order", may, "Ids of trees.", set(text())})},
		{"edition", "content/edition.yaml", "What a clinic says of its own copy. A layer replaces only what it names.", editionForm},
		{"sources", "content/sources.yaml", "The bibliography: all that a page may cite.", keys(
			key{"sources", may, "The sources, by id.", each(sourceForm)},
			key{"search", may, "How a planned search for them went; the sources page tells it.", searchForm},
		)},
		{"glossary", "content/glossary.yaml", "Words that link themselves where a page first uses them.", keys(key{"words", may, "The words, by id.", each(wordForm)})},
		{"search-words", library.SearchWordsFile, "What everyday words mean here, for the search. A layer adds to it, and takes away nothing.", keys(
			key{"skip", may, "Words that say nothing of what is looked for.", list(text())},
			key{"means", may, "Everyday words, by id.", each(keys(
				placeKey,
				key{"says", need, "Words and phrases, as people say them.", some(text())},
				key{"means", need, "Words of the site.", some(text())},
			))},
			key{"signs", may, "How people name each sign of the safety screen, by the sign's id. All words of a wording have to be there; a stroke parts those of which one will do: chest hurt/pain.", form{"type": "object", "additionalProperties": someOrNone}},
			key{"asked", may, "Other ways in which people ask for a place of the site, which is named as a link names it: explainer:stairs#what-about-curbs, page:clinic#own.", form{"type": "object", "additionalProperties": someOrNone}},
		)},
		{"foot-types", "content/foot-types.yaml", "Foot types side by side, each for its kind as a whole.", keys(
			key{"rows", may, "The rows of the table, the same for every type.", each(rowForm)},
			key{"types", may, "The foot types, by id.", each(footTypeForm)},
		)},
		{"wishes", "content/wishes.yaml", "What may matter to a reader, each held against a row of the foot types.", keys(
			key{"wishes", may, "The wishes, by id.", each(wishForm).with(form{"maxProperties": library.MaxWishes})},
		)},
		{"drawings", library.DrawingsFile, "What the drawings say. Shapes are the program's; a layer gives a drawing's words whole.", keys(key{"drawings", may, "The drawings, by id.", drawingsForm()})},
		{"words", say.File("LANGUAGE"), "What the program itself says in a language, by group and key. Gaps stand in braces.", each(each(sayForm))},
		{"self-ratings", "content/self-ratings.yaml", "How the editors rate the site by published measures.", keys(
			key{"rated", may, "What is rated, by id: a kind of page, or the whole site.", each(keys(
				key{"name", need, "A short name, for the head of a column.", words()},
				key{"what", need, "Which pages these are.", words()},
				key{"see", need, "One of them, as a file of the site: learn/foot-types.html", text()},
				key{"of", may, "Which single pages it is made of, where each is rated: the planner's topics, explainers for patients, or those for residents.", oneOf(library.RatedOf...)},
			))},
			key{"yardsticks", may, "The measures, by id.", each(yardstickForm)},
		)},
		{"first-reading", "content/first-reading.yaml", "What the first reader found by the measures of self-ratings.yaml.", readingForm},
		{"second-reading", "content/second-reading.yaml", "What the second reader found, who has not seen the first reading.", readingForm},
		{"learn", "content/learn.yaml", "The shelves of the learn page.", keys(key{"parts", may, "The shelves, in order.", list(keys(
			key{"title", need, "The shelf's name.", words()},
			key{"about", may, "One plain line about it.", wordsOrNone()},
			key{"explainers", may, "Ids of explainers, in order.", list(text())},
		))}, key{"pictures", may, "The drawing or the tile that stands for each page, by the explainer's id.", form{"type": "object", "additionalProperties": someOrNone}})},
		{"translated", "content/LL/trees/ID.yaml, content/LL/glossary.yaml and so on", "What stands in another language for the texts of a file, by the way to each.", form{"type": "object", "additionalProperties": translatedForm}},
		{"voices", "content/en/trees/ID.yaml", "What is said to a parent, and to one who cares for someone, for the texts of trees/ID.yaml that speak to or of the reader, by the way to each.", form{"type": "object", "additionalProperties": voicedForm}},
		{"explainer", "content/en/ID.md, the header between the two lines ---", "The header of an explainer.", keys(append([]key{
			{"title", need, "The page's title.", text()},
			{"audience", may, "Who it is for; patient where it is left out.", oneOf("patient", "resident")},
			{"message", need, "The main message, in one line.", text()},
			{"prompts", may, "Ids of prompts that the page brings up at its end.", set(text())},
		}, credits...)...)},
		{"page", "content/en/pages/PAGE.md, the header between the two lines ---", "The header of what one of the site's own pages says. It has no authors and no dates: the page shows those of all that it draws on.", keys(
			key{"title", need, "The page's title.", text()},
			key{"audience", may, "Who it is for; patient where it is left out.", oneOf("patient", "resident")},
			key{"about", need, "What it is about, in one sentence, for search engines and lists of links.", text()},
			key{"message", need, "The main message, below the title. It may have gaps.", text()},
			key{"sources", may, "Ids of all sources that are cited.", set(text())},
		)},
		{"figure", "content/en/figures/ID.yaml", "A figure of the workbench: what a reader sets, what follows, and how that is said.", figureForm()},
	}
})

// someOrNone is a text, a list of them, or nothing, as the reader takes pairs.
var someOrNone = form{"type": []string{"string", "number", "boolean", "null", "array"}}

// sayForm is a text of the program: the text alone, or with a remark for translators, or one by each
// plural form that the language has.
var sayForm = anyOf(text(), keys(append([]key{
	{"text", need, "The text.", text()},
	{"child", may, "The text as said to a parent.", text()},
	{"person", may, "The text as said to one who cares for someone.", text()},
}, aboutText...)...), keys(slices.Concat([]key{
	{"child", may, "The forms as said to a parent.", keys(plurals...)},
	{"person", may, "The forms as said to one who cares for someone.", keys(plurals...)},
}, aboutText, plurals)...))

// aboutText are the remarks that a text of the program may have.
var aboutText = []key{
	{"about", may, "For translators: what the text is for, and what stands in its gaps.", line()},
	{"of", may, "In another language: the fingerprint of the text that these are the words of.", line()},
}

// plurals are a text with each kind of number.
var plurals = []key{
	{"zero", may, "With the number 0.", text()},
	{"one", may, "With the number 1, and others where the language has them together.", text()},
	{"two", may, "With the number 2.", text()},
	{"few", may, "With a few.", text()},
	{"many", may, "With many.", text()},
	{"other", need, "With any other number.", text()},
}

// credits are the keys that trees and explainers share.
var credits = []key{
	{"authors", need, "Who wrote it.", some(text())},
	{"reviewers", need, "Clinicians who reviewed it; [] while there is none, and the page says so.", list(text())},
	{"reviewed", need, "When the facts were last checked against the sources: YYYY-MM-DD.", date()},
	{"review-by", need, "When that is due again, at most three years later: YYYY-MM-DD.", date()},
	{"sources", may, "Ids of all sources that are cited.", set(text())},
	{"funding", need, "Who paid, in a sentence.", words()},
}

var editionForm = keys(
	key{"name", may, "The edition's name.", text()},
	key{"clinic", may, "Who publishes it.", line()},
	key{"phone", may, "The clinic's telephone number.", line()},
	key{"address", may, "The https address of the folder in which the copy is hosted; invitations are printed with it.",
		line().with(form{"pattern": `^\s*$|` + spaced(library.AddressForm), "allOf": []form{{"pattern": fmt.Sprintf(`^\s*\S{0,%d}\s*$`, library.MaxAddress)}}})},
	key{"emergency", may, "Whom to call in an emergency. The words around the number are the program's.", lineForm},
	key{"urgent", may, "Whom to call for urgent advice; a number \"\" where there is none.", anyOf(lineForm, noLineForm, form{"type": "null"})},
	key{"crisis", may, "Whom to call in a crisis of mind.", lineForm},
	key{"endorsement", may, "A sentence at the top of the sheet.", line()},
	key{"version", may, "The edition's version, in quotes.", line()},
	key{"place", may, "Where it is read: us. What is marked for another place is left out.", line()},
	key{"languages", may, "The languages in which it is built besides the first, each a folder of words: content/es/.", set(text().with(form{"pattern": "^\\s*" + library.LanguageForm + "\\s*$"}))},
	key{"voices", may, "The voices that it offers besides the reader's own.", set(text())},
	key{"training", may, "What training each author and reviewer has, by the name that headers give; a layer adds its own people's.", namedForm},
	key{"shared-screen", may, "true where many readers share the screen: nothing is kept, and an idle page clears itself after asking.", yesNo()},
)

// placeKey is at entries that an edition may go without.
var placeKey = key{"place", may, "The place that it is for, or a list of them; for all where it is left out.", oneOrMore()}

// translatedForm is an entry of a file of another language's words.
var translatedForm = keys(
	key{"of", need, "The fingerprint of the text as it was when it was translated; the checker says it.", text()},
	key{"says", may, "The words, or the lines of a list.", oneOrSeveral()},
	key{"me", may, "The words as said to the reader.", oneOrSeveral()},
	key{"child", may, "The words as said to a parent.", oneOrSeveral()},
	key{"person", may, "The words as said to one who cares for someone.", oneOrSeveral()},
)

// voicedForm is an entry of a file of the other voices.
var voicedForm = keys(
	key{"of", need, "The fingerprint of the text in the reader's own voice as it was when these were written; the checker says it.", text()},
	key{"child", may, "The words, or the lines of a list, as said to a parent.", oneOrSeveral()},
	key{"person", may, "The words, or the lines of a list, as said to one who cares for someone.", oneOrSeveral()},
)

func oneOrSeveral() form { return anyOf(text(), list(text())) }

var lineForm = keys(
	key{"number", need, "The number: digits, spaces, +, -, ( and ), at least two digits.", text().with(form{"pattern": spaced(library.NumberForm)})},
	key{"where", need, "The place where it holds, as one says it after \"in\": the US", text().with(form{"pattern": spaced(library.PlaceForm)})},
	key{"text", may, "true where it takes text messages.", yesNo()},
)

// spaced lets spaces stand around what a pattern takes, for the reader cuts them off.
func spaced(pattern string) string { return `^\s*` + pattern[1:len(pattern)-1] + `\s*$` }

// noLineForm is an edition without a number.
var noLineForm = keys(
	key{"number", may, "The number, left empty.", line().with(form{"pattern": `^\s*$`})},
	key{"where", may, "Left empty.", line().with(form{"pattern": `^\s*$`})},
	key{"text", may, "Left out.", yesNo()},
)

var cardForm = keys(
	placeKey,
	key{"title", need, "What came up, in a few words.", words()},
	key{"text", need, "One or two short sentences (markdown).", words()},
	key{"prompts", may, "Ids of prompts that the card adds.", set(text())},
	key{"drawing", may, "A drawing of what to do.", form{"type": []string{"string", "number", "boolean"}}},
)

var talkForm = keys(
	key{"type", need, "Id of the foot type.", text()},
	key{"for", need, "A reason for it.", words()},
	key{"against", need, "A reason against it.", words()},
)

var promptForm = keys(
	placeKey,
	key{"ask", need, "The question in the reader's own voice: one idea, at most 20 words, one question mark at its end.",
		form{"type": "string", "pattern": `^\s*[^?]*\?\s*$`, "allOf": []form{{"pattern": `^\s*(\S+\s+){0,19}\S+\s*$`}}}},
	key{"whom", need, "Whom to ask.", some(oneOf(library.Whom...))},
	key{"why", need, "Why it is worth asking, in one plain line.", words()},
	key{"basis", need, "Ids of sources it rests on, or [" + library.CommonPractice + "].", some(text())},
	key{"presumes", may, "Ids of facts that a reader has to have told for it to fit.", factsForm},
	key{"unless", may, "Ids of facts that make it needless: it is not offered once one of them is told.", factsForm},
)

// factsForm names one fact, or several in a list.
var factsForm = anyOf(id(), set(id()))

var factForm = keys(
	key{"says", need, "The fact in the reader's words, as a heading of an amount or a sentence.", words()},
	key{"of", may, "A name for a set of facts of which only one can be true.", line()},
	key{"unit", may, "The unit of its amount, where it is one.", line()},
	key{"own-words", may, "true where it is told in the reader's own words, on the sheet.", yesNo()},
	key{"part", may, "The part of \"About me\" in which it stands on the sheet.", line()},
	key{"sheet", may, "The sentence there, where says: is not the whole of it; with the gap {id} for an amount.", wordsOrNone()},
)

// aboutForm is what the answers to one question say on the sheet.
var aboutForm = keys(
	key{"part", need, "The part of \"About me\" in which these sentences stand.", id()},
	key{"amount", may, "The sentence of an amount, where it is not the fact's own.", wordsOrNone()},
	key{"these", may, "One sentence for the ticked answers of list:, which stand in its gap {these}.", wordsOrNone()},
	key{"list", may, "By answer: a part of that sentence.", each(wordsOrNull())},
	key{"says", may, "By answer, or by likeness of an amount: a sentence.", each(wordsOrNull())},
)

var themeForm = keys(
	placeKey,
	key{"title", need, "The theme's name.", words()},
	key{"about", need, "Why it matters, in one plain line.", words()},
	key{"prompts", may, "The prompts, by id.", each(promptForm)},
)

var sourceForm = keys(
	key{"title", need, "The source's title.", text()},
	key{"by", may, "Its authors, or the body that wrote it.", line()},
	key{"kind", need, "What kind of source it is. A claim that rests on a study or a review says how sure it is.", oneOf(library.SourceKinds...)},
	key{"year", may, "The year, as a number.", whole(1900, 2100)},
	key{"where", may, "The journal or body.", line()},
	key{"address", may, "Its page on the web, whole.", form{"type": "string", "pattern": `^\s*(https?://.*)?$`}},
	key{"seen", may, "How much of it was read; opening, which is a part, where it is left out.", oneOf("opening", "page", "abstract", "summary")},
	key{"note", may, "What else a reader should know of it.", wordsOrNone()},
)

var searchForm = keys(
	key{"on", need, "The day: YYYY-MM-DD.", date()},
	key{"asked", need, "What it asked, each in a plain sentence or two.", list(text())},
	key{"searches", need, "How many searches were run.", whole(0, library.MaxCount)},
	key{"results", need, "How many results came up.", whole(0, library.MaxCount)},
	key{"looked-at", need, "How many texts were looked at closely.", whole(0, library.MaxCount)},
	key{"taken-in", may, "Those that were taken in, by sort.", list(tallyForm)},
	key{"left-out", may, "Those that were left out, by reason.", list(tallyForm)},
)

var tallyForm = keys(
	key{"what", need, "What is counted, in a plain sentence.", words()},
	key{"count", need, "How many.", whole(0, library.MaxCount)},
)

var wordForm = keys(
	placeKey,
	key{"word", need, "The word.", words()},
	key{"also", may, "Other forms that mean the same.", list(text())},
	key{"meaning", need, "One or two plain sentences.", words()},
)

var rowForm = keys(
	placeKey,
	key{"title", need, "What the row compares.", words()},
	key{"steps", need, "A word or phrase for each mark from 0 to 4.", list(text()).with(form{"minItems": 5, "maxItems": 5})},
)

var footTypeForm = keys(
	placeKey,
	key{"name", need, "The type's name.", words()},
	key{"in-sentence", may, "Of an add-on: its name in the middle of a sentence, with its article, such as: a shock unit.", words()},
	key{"also", may, "Words the trade uses for it.", list(text())},
	key{"what", need, "How it works, in one plain sentence.", words()},
	key{"explainer", may, "Id of the explainer about it.", line()},
	key{"addon", may, "true for a part that is added to a foot: its marks are changes to that foot.", yesNo()},
	key{"way", may, "true for what one can do with no new foot: its cells have words in place of marks.", yesNo()},
	key{"gain", need, "What people may gain; short phrases.", list(text())},
	key{"give-up", need, "What they may give up; as many phrases.", list(text())},
	key{"cells", need, "A mark for each row, by the row's id.", each(cellForm).with(form{"minProperties": 1})},
).with(form{
	"if":   isTrue("addon"),
	"then": allOf(marks(-2, 3), has("in-sentence")),
	"else": allOf(marks(0, 4), not(has("in-sentence"))),
}).with(allOf(
	form{"if": isTrue("way"), "then": cellsNeed("says", "mark"), "else": cellsNeed("mark", "says")},
	not(allOf(isTrue("way"), isTrue("addon"))),
))

func isTrue(name string) form {
	return form{"required": []string{name}, "properties": form{name: form{"const": true}}}
}

// cellsNeed wants the one key in each cell, and not the other.
func cellsNeed(key, other string) form {
	return form{"properties": form{"cells": form{"additionalProperties": allOf(has(key), not(has(other)))}}}
}

func marks(low, high int) form {
	return form{"properties": form{"cells": form{"additionalProperties": form{"properties": form{"mark": whole(low, high)}}}}}
}

var cellForm = keys(
	key{"mark", may, "A step from 0 to 4; for an add-on a change from -2 to 3.", whole(-2, 4)},
	key{"says", may, "In place of a mark, for a way: a few words.", words()},
	key{"support", may, "How sure it is: some or well by studies, little where it is not settled, trade where nobody has tested it; a cell that cites a study says it.", oneOf(explainer.SupportIDs()...)},
	key{"why", need, "The reason, in one plain line.", words()},
	key{"sources", need, "Ids of sources, or [" + library.CommonPractice + "].", some(text())},
)

var wishForm = keys(
	placeKey,
	key{"title", need, "The wish in the reader's words.", words()},
	key{"row", need, "Id of the row that it is held against.", text()},
	key{"at-least", may, "A foot type meets it from this step of the row up.", whole(1, 4)},
	key{"at-most", may, "A foot type meets it from this step of the row down.", whole(0, 3)},
	key{"means", need, "What the step is in daily life, in one or two plain sentences.", words()},
	key{"want", need, "What follows \"I want\" in a question: to change heels.", piece(library.WantWords)},
	key{"name", need, "The wish as a thing: heel change.", piece(library.NameWords)},
	key{"less", need, "What a question asks of giving it up, without its end: How much push would I lose.", piece(library.LessWords)},
).with(allOf(anyOf(has("at-least"), has("at-most")), not(allOf(has("at-least"), has("at-most")))))

var yardstickForm = keys(
	key{"title", need, "Its name.", words()},
	key{"about", need, "What it is, how it counts, and what we have seen of it.", words()},
	key{"sources", need, "Ids of sources.", list(text())},
	key{"rates", need, "Ids of what is rated by it.", list(text())},
	key{"joined", may, "true where all parts give one score.", yesNo()},
	key{"parts", may, "Groups of items that are counted together, by id.", each(keys(
		key{"title", need, "The group's name.", words()},
		key{"items", may, "The items, by id.", each(keys(
			key{"asks", need, "What is asked for, in our own words.", words()},
		))},
	))},
)

// readingForm is one reading of the site by its yardsticks.
var readingForm = keys(
	key{"read", need, "The day on which it was read, or: not yet.", anyOf(date(), oneOf(library.NotYet))},
	key{"readings", may, "What was found, by yardstick and item.", each(each(keys(
		key{"met", may, "Ids of what meets it.", list(text())},
		key{"partly", may, "Id to reason, for what meets it in part.", namedForm},
		key{"not", may, "Id to reason, for what does not meet it.", namedForm},
		key{"apart", may, "Id to reason, where it does not apply.", namedForm},
		key{"on", may, "Which single pages of a kind fall short, by the ids of explainers and topics.", keys(
			key{"partly", may, "Id to reason, for pages that meet it in part.", namedForm},
			key{"not", may, "Id to reason, for pages that do not meet it.", namedForm},
			key{"apart", may, "Id to reason, for pages to which it does not apply.", namedForm},
		)},
		key{"how", may, "How it is met.", wordsOrNone()},
		key{"see", may, "Pages of the site where one can see it.", list(text())},
		key{"open", may, "What has not been studied.", wordsOrNone()},
	)))},
)

// drawingsForm has a key for each drawing and, in it, one for each label that its
// shapes ask for.
func drawingsForm() form {
	var all []key
	for _, d := range drawing.Shapes() {
		if len(d.Labels()) == 0 {
			all = append(all, key{d.ID, need, "What it says.", keys(
				key{"title", need, "Its name, which stands below it.", words()},
				key{"long", need, "What it shows, in words, for a reader who cannot see it.", words()},
			)})
			continue
		}
		var labels []key
		for _, id := range d.Labels() {
			labels = append(labels, key{id, need, "A line of text, or a list of lines.", anyOf(text(), some(text()))})
		}
		all = append(all, key{d.ID, need, "What it says; a number of the drawing stands in braces.", keys(
			key{"title", need, "Its name, which stands below it.", words()},
			key{"long", need, "What it shows, in words, for a reader who cannot see it.", words()},
			key{"labels", need, "Its labels, by id.", keys(labels...)},
		)})
	}
	out := keys(all...)
	delete(out, "required") // a layer says some of them, and none by halves
	return out
}

// namedForm is a name to a text each, which may be written as a list of one.
var namedForm = form{"type": "object", "additionalProperties": anyOf(text(), some(text()).with(form{"maxItems": 1}))}

// piece is a part of a sentence of at most so many words.
func piece(words int) form {
	return text().with(form{"pattern": fmt.Sprintf(`^\s*([^\s.?]+\s+){0,%d}[^\s.?]+\s*$`, words-1)})
}

func treeForm() form {
	return keys(append([]key{
		{"tree", need, "The tree's id; the same as the file's name.", id()},
		{"title", need, "The tree's title.", words()},
		{"audience", may, "Who it is for; patient where it is left out.", oneOf("patient", "resident")},
		{"purpose", need, "What the tree finds out, in one plain sentence.", words()},
		{"safety", may, "How the shared safety screen comes before a tree for patients. shared: its gate first; whole: all its signs.", oneOf(tree.SafetyShared, tree.SafetyWhole)},
		{"group", may, "With which other topics the planner shows it; apart from them where it is left out.", oneOf(tree.Groups...)},
		{"start", need, "Id of the first question.", id()},
		{"values", may, "Amounts worked out from answers, each a formula; each may use those above it.", each(formulaForm).with(form{"maxProperties": tree.MaxValues})},
		{"questions", need, "The questions, by id.", each(questionForm).with(form{"minProperties": 1, "maxProperties": tree.MaxQuestions})},
		{"endings", need, "The endings, by id.", each(endingForm).with(form{"minProperties": 1, "maxProperties": tree.MaxEndings})},
		{"examples", may, "Invented people, with the ending that their answers must lead to.", list(exampleForm).with(form{"maxItems": tree.MaxExamples})},
	}, credits...)...)
}

// formulaForm is a condition or a worked-out value.
var formulaForm = text().with(form{"maxLength": formula.MaxLength})

var questionForm = keys(
	key{"text", need, "One question, in plain words.", words()},
	key{"why", need, "Why it is asked, in one short line.", words()},
	key{"hint", may, "A line of help below it.", wordsOrNone()},
	key{"pick", may, "one: the reader gives one answer. any: one or more.", oneOf(string(tree.PickOne), string(tree.PickAny))},
	key{"answers", may, "The answers, by id. One with the id unsure stands for not sure.", each(answerForm).with(form{"maxProperties": tree.MaxAnswers})},
	key{"measure", may, "Instead of answers: an amount that the reader enters.", measureForm},
	key{"routes", may, "Ways on by conditions: the first whose condition is true is taken.", list(routeForm)},
	key{"go", may, "Where answers lead that have no way of their own: a question or an ending.", id()},
	key{"skip", may, "Where skipping leads: a question or an ending.", id()},
	key{"tells", may, "With a measure: the id of the told fact that its amount is.", oneOrMore()},
).with(allOf(
	form{ // answered with an amount, or with answers
		"if":   has("measure"),
		"then": allOf(has("skip"), anyOf(has("routes"), has("go")), not(has("answers"))),
		"else": allOf(has("answers"), form{"properties": form{"answers": form{"minProperties": 1}}},
			anyOf(has("skip"), form{"properties": form{"answers": has(tree.Unsure)}})),
	},
	not(allOf(has("routes"), has("go"))),
	form{
		"if":   form{"required": []string{"pick"}, "properties": form{"pick": form{"const": string(tree.PickAny)}}},
		"then": anyOf(has("routes"), has("go"), answersAll(leads)),
		"else": allOf(anyOf(has("routes"), answersAll(leads)), anyOf(has("measure"), not(has("go"))),
			answersAll(not(form{"required": []string{"alone"}, "properties": form{"alone": form{"const": true}}}))),
	},
))

// leads is an answer with a way of its own: a place, or a sign that leads to help.
var leads = allOf(anyOf(has("go"), has("sign")), not(allOf(has("go"), has("sign"))))

// oneOrMore is a text, or a list of them.
func oneOrMore() form { return anyOf(text(), set(text())) }

// answersAll holds every answer of a question to a rule.
func answersAll(rule form) form {
	return form{"properties": form{"answers": form{"additionalProperties": rule}}}
}

// shortForm is words of tree.MaxShort letters; the checker counts them.
var shortForm = words()

var answerForm = keys(
	placeKey,
	key{"text", need, "The answer as the reader sees it.", words()},
	key{"short", may, "What a map of the tree says in its place, where it is long.", shortForm},
	key{"go", may, "Where it leads: a question or an ending.", id()},
	key{"sign", may, "In place of go: the sign of the safety screen that this answer tells.", id()},
	key{"tells", may, "Ids of told facts.", oneOrMore()},
	key{"cards", may, "Ids of cards that it adds.", set(text())},
	key{"alone", may, "With pick: any, true where it cannot be ticked together with others.", yesNo()},
	key{"ground", may, "The tile that shows it, where it is a thing.", oneOf(drawing.TileNames()...)},
)

var routeForm = keys(
	key{"if", may, `A condition: steepness > 8.5*percent. Only the last route may lack it, and is taken where no other is.`, line().with(form{"maxLength": formula.MaxLength})},
	key{"short", may, "What a map of the tree says in place of the condition.", shortForm},
	key{"go", need, "Where it leads: a question or an ending.", id()},
	key{"cards", may, "Ids of cards that it adds.", set(text())},
)

var measureForm = keys(
	key{"unit", need, "The unit that a bare number counts in.", oneOf(units(false)...)},
	key{"accept", may, "Other units that a reader may use.", list(oneOf(units(true)...))},
	key{"from", need, "The least amount; a whole multiple of step.", number()},
	key{"to", need, "The greatest amount; a whole multiple of step.", number()},
	key{"step", need, "Amounts are rounded to it.", number().with(form{"exclusiveMinimum": 0})},
	key{"ground", may, "The tile that its amounts are drawn as: a slope at its angle, a heel as high as it is, a load.", oneOf(slices.Concat(drawing.TilesOf("slope"), drawing.TilesOf("length"), drawing.TilesOf("mass"))...)},
	key{"like", may, "Amounts with a name, by id, for readers who have not measured.", each(keys(
		key{"text", need, "The name: Like a public wheelchair ramp.", words()},
		key{"is", need, "The amount as a reader would type it.", text()},
	))},
)

// units gives all that stands for a unit: its codes and spellings.
func units(ratio bool) []string {
	var out []string
	for _, u := range quantity.Table().Units {
		if u.Code == quantity.Ratio && !ratio {
			continue
		}
		out = append(out, u.Code)
		for _, s := range u.Spell {
			if s != u.Code {
				out = append(out, s)
			}
		}
	}
	return out
}

var endingForm = keys(
	key{"title", need, "The ending's title.", words()},
	key{"safety", may, "true where help comes before any talk of a foot.", yesNo()},
	key{"text", need, "What came up and what to do next, in one to three short sentences (markdown); {name} shows an amount.", words()},
	key{"caution", may, "What to take care of (markdown), shown first.", wordsOrNone()},
	key{"themes", may, "Ids of themes.", set(text())},
	key{"types", may, "Foot types to talk about, each with a reason for and one against.", list(talkForm)},
	key{"prompts", may, "Ids of prompts.", set(text())},
	key{"next", may, "Ids of trees to take next.", set(text())},
	key{"ground", may, "A picture of the reader's own amounts, where the tree asks for them.", oneOf(drawing.OwnNames()...)},
	key{"drawing", may, "A drawing of what to do.", text()},
).with(form{
	"if": form{"required": []string{"safety"}, "properties": form{"safety": form{"const": true}}},
	"then": form{"required": []string{"caution"}, "properties": form{
		"caution": text(), "types": form{"maxItems": 0},
	}},
})

var exampleForm = keys(
	key{"who", need, "An invented person, in words.", words()},
	key{"answers", may, "Question id to answer id, or to a list of them; skip where it is skipped.",
		form{"type": "object", "additionalProperties": anyOf(text(), some(text()))}},
	key{"ending", need, "Id of the ending that the answers must lead to.", text()},
	key{"cards", may, "Ids of all cards that the answers add.", set(text())},
)
