package schema

import "keelpath/builder/safety"

// screenForm is the shared safety screen.
var screenForm = keys(append([]key{
	{"leg", need, "The first question: does the reader wear a leg now?", keys(
		key{"text", need, "The question.", words()},
		key{"why", need, "Why it is asked, in one short line.", words()},
		key{"answers", need, "Its answers: worn, not-yet and not-now.", each(keys(
			key{"text", need, "The answer as the reader sees it.", words()},
			key{"tells", may, "Ids of told facts.", oneOrMore()},
		)).with(form{"propertyNames": form{"enum": safety.LegAnswers}})},
	)},
	{"gate", need, "The question that asks for each group in one line.", keys(
		key{"text", need, "The question.", words()},
		key{"why", need, "Why it is asked, in one short line.", words()},
		key{"hint", may, "A line of help below it.", wordsOrNone()},
	)},
	{"groups", need, "The groups of signs, in the order in which they are asked.", each(groupForm).with(form{"propertyNames": form{"enum": safety.GroupIDs}})},
	{"endings", need, "What to do first, by the gravest sign told.", each(keys(
		key{"title", need, "What to do, in a few words.", words()},
		key{"steps", need, "The steps, each a short sentence or two (markdown).", list(text())},
		key{"worn", may, "Steps for those who wear a leg (markdown).", list(text())},
	)).with(form{"propertyNames": form{"enum": safety.Whens}})},
	{"examples", may, "Invented people, and what they must be told.", list(keys(
		key{"who", need, "Who it is.", words()},
		key{"leg", need, "The answer to the leg question.", text()},
		key{"gate", may, "Lines ticked at the gate, or none or unsure; left out where the groups are asked without it.", set(text())},
		key{"told", may, "Ids of signs; skin/unsure for not sure in a group.", set(text())},
		key{"ending", need, "The ending, or none.", text()},
		key{"cautions", may, "The cautions, in the order in which they are shown.", set(text())},
	))},
}, credits...)...)

var groupForm = keys(
	key{"line", need, "How the gate asks for it, naming its main signs.", words()},
	key{"title", need, "A short name.", words()},
	key{"text", need, "The question above its signs.", words()},
	key{"why", need, "Why it is asked, in one short line.", words()},
	key{"hint", may, "A line of help below it.", wordsOrNone()},
	key{"leg", may, "true where it is asked only of those who wear a leg.", yesNo()},
	key{"unsure", need, "What not sure leads to.", keys(
		key{"title", need, "Heads the caution.", words()},
		key{"caution", need, "What to do (markdown).", words()},
		key{"worn", may, "Said first to those who wear a leg, and to nobody else (markdown).", wordsOrNone()},
		key{"prompts", may, "Ids of prompts for later.", set(text())},
	)},
	key{"signs", need, "The signs, by id.", each(signForm).with(form{"minProperties": 1})},
)

var signForm = keys(
	key{"text", need, "What the reader ticks (markdown); its main words first, in bold.", words()},
	key{"more", may, "Small print below it.", wordsOrNone()},
	key{"when", need, "How soon it needs help.", oneOf(safety.Whens...)},
	key{"leg", may, "true where it is asked only of those who wear a leg.", yesNo()},
	key{"title", need, "Heads its caution.", words()},
	key{"caution", need, "What to do (markdown). It holds with a leg and without one.", words()},
	key{"worn", may, "Said first to those who wear a leg, and to nobody else (markdown).", wordsOrNone()},
	key{"because", may, "Stands below the caution (markdown).", wordsOrNone()},
	key{"prompts", may, "Ids of prompts for later.", set(text())},
	key{"tells", may, "Ids of told facts.", oneOrMore()},
	key{"basis", need, "Ids of sources it rests on, or [common-practice].", some(text())},
)
