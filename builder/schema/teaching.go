package schema

import (
	"slices"

	"keelpath/builder/teaching"
)

// teachingForm is a teaching case.
func teachingForm() form {
	own := []key{
		{"case", need, "The case's id, which is its file's name.", text()},
		{"title", need, "The case in a few words.", words()},
		{"who", need, "An invented person, and why they come.", words()},
		{"setting", need, "Where it takes place, and with whom.", words()},
		{"tasks", may, "What it practices: the tasks of its beats.", set(oneOf(teaching.Tasks...))},
		{"minutes", need, "What its beats take together.", whole(1, teaching.MaxMinutes)},
		{"limb", need, "Where the leg ends.", oneOf(teaching.Limbs...)},
		{"facts", need, "What is known of the person, by id: that of trees/told.yaml where it is one of those.", filled(each(caseFactForm))},
		{"screen", may, "What the person answers on the safety screen, where a patients' tree is walked.", keys(
			key{"leg", may, "The answer to the leg question.", caseAnswerForm},
			key{"gate", may, "The lines of the gate, or none.", caseAnswerForm},
			key{"groups", may, "Signs that are told, by group; a group that is opened and not named is answered with none.", each(caseAnswerForm)},
		)},
		{"walks", need, "The case's way through each tree, by the tree's id.", filled(each(keys(
			answersKey,
			key{"ending", need, "Where it ends; help where the safety screen ends it.", text()},
		)))},
		{"argue", may, "Foot types that come up, two at least, each with a reason for and one against.", list(talkForm)},
		{"ends-before", may, "In place of argue: why the case ends before any foot.", wordsOrNone()},
		{"beats", need, "The steps of a session, by id, in order.", filled(each(beatForm()))},
		{"flips", need, "One fact changed, and where that leads; one at least changes nothing.", filled(each(keys(
			key{"fact", need, "Id of the fact that is changed.", text()},
			key{"says", need, "What is so instead.", words()},
			key{"tree", need, "Id of the tree that is walked anew.", text()},
			answersKey,
			key{"parts", may, "The last question that both ways ask; left out where nothing changes.", line()},
			key{"ending", need, "Where it ends.", text()},
			key{"because", need, "Why (markdown).", words()},
		)))},
		{"follow-up", need, "How the person is followed up.", keys(
			key{"measure", need, "What is measured.", words()},
			key{"day", need, "Days after the fitting.", whole(1, teaching.MaxDays)},
			key{"change", need, "What would make us change.", words()},
		)},
		{"errors", may, "Common errors, each with what is better (markdown).", list(text())},
	}
	return keys(slices.Concat(own, credits)...)
}

// filled is a mapping with one entry at least.
func filled(f form) form { return f.with(form{"minProperties": 1}) }

var answersKey = key{"answers", may, "Answers by question; in a flip, those that are new or other than in the walk.", each(caseAnswerForm)}

var caseFactForm = keys(
	key{"says", need, "The fact. A level only as dated history of the chart.", words()},
	key{"from", need, "Where it comes from; asked and examined facts are hidden until a learner asks for them.", oneOf(teaching.Origins...)},
	key{"request", may, "What a learner asks for.", wordsOrNone()},
	key{"dated", may, "The day on which the chart says it was so: YYYY-MM-DD.", date()},
	key{"amount", may, "The amount as a reader would type it, where a measure rests on it.", line()},
)

var caseAnswerForm = keys(
	key{"is", may, "Id of the answer, or a list of them; an amount; skip.", oneOrMore()},
	key{"rests", may, "Ids of facts on which the answer rests.", oneOrMore()},
)

// beatForm is a beat in any of its formats.
func beatForm() form {
	option := func(own ...key) key {
		return key{"options", may, "The options, by id. The page shuffles them.", each(keys(append(own, key{"because", need, "Why it is right, or why not (markdown).", words()})...))}
	}
	says := key{"text", need, "The option.", words()}
	lead := func(format string, own ...key) form {
		return keys(slices.Concat([]key{
			{"format", need, "The format.", oneOf(format)},
			{"minutes", need, "How long it takes.", whole(1, teaching.MaxMinutes)},
			{"tasks", may, "What it practices.", set(oneOf(teaching.Tasks...))},
			{"says", may, "What comes to be known before the task.", wordsOrNone()},
			{"lead", need, "The task in one line.", words()},
		}, own)...)
	}
	return anyOf(
		lead(teaching.OneBest, option(says), key{"key", need, "Id of the right option. No foot type.", text()}),
		lead(teaching.KeyFeature,
			key{"feature", need, "The critical step that it tests.", words()},
			key{"picks", need, "How many options may be picked at most.", whole(1, teaching.MaxOptions)},
			option(says, key{"worth", need, "right, idle, or harm: an answer that harms costs all.", oneOf(teaching.Worths...)})),
		lead(teaching.Predict,
			key{"tree", need, "Id of a tree that the case walks.", text()},
			key{"after", may, "The last question that was answered; the start where it is left out.", line()},
			key{"of", need, "What is foretold: the next question, or the endings that are still open.", oneOf(teaching.NextQuestion, teaching.OpenEndings)},
			option(says), key{"key", need, "Ids of the options that are so; the build proves it.", list(text())}),
		lead(teaching.Ask, key{"requests", need, "How many facts may be asked for.", whole(1, teaching.MaxOptions)}, option()),
		lead(teaching.Write,
			key{"checklist", need, "What the sentences have to hold.", list(text())},
			key{"model", need, "One way to say it.", words()}),
		lead(teaching.Shift,
			key{"toward", need, "A reason to be moved (markdown).", words()},
			key{"away", need, "A reason not to be (markdown).", words()}),
		lead(teaching.Defend),
		lead(teaching.RolePlay,
			key{"opening", need, "What the person says first.", words()},
			key{"freely", may, "Ids of facts that are told unasked.", set(text())},
			key{"if-asked", may, "Ids of facts that are told when asked.", set(text())},
			key{"never", may, "What the person does not know.", list(text())},
			key{"feels", need, "What the person feels.", words()},
			key{"closes", need, "What ends the scene, and how the role is left.", words()},
			key{"teach-back", need, "What the person has to be able to say back.", list(text())}),
		lead(teaching.Order, option(says, key{"cause", need, "The category of cause.", oneOf(teaching.Causes...)})),
	)
}
