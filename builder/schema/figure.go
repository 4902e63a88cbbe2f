package schema

import "keelpath/builder/figure"

func figureForm() form {
	return keys(
		key{"title", need, "The figure's title.", words()},
		key{"order", need, "Where it stands in the workbench; the lowest comes first.", whole(1, figure.MaxOrder)},
		key{"about", need, "What it is for, in one or two sentences.", words()},
		key{"lead", need, "The main message of its page.", words()},
		key{"inputs", need, "What a reader sets, by id.", each(inputForm).with(form{"minProperties": 1})},
		key{"values", may, "What is worked out, by id, each from inputs and values above it.", each(valueForm)},
		key{"texts", may, "What it says, by id, in the page's order.", each(figureTextForm)},
		key{"ask", need, "The question to bring.", keys(saysOrCases...).with(either("says", "cases"))},
		key{"limits", may, "Published limits that stand next to the reader's own value.", limitsForm},
		key{"typical", need, "A worked table of usual settings, for pages with no script.", typicalForm},
		key{"beside", may, "Questions of trees beside which the planner shows it.", list(besideForm)},
		key{"notes", need, "Notes below the figure on its page (markdown).", text()},
	)
}

// either wants one of two keys, and not both.
func either(a, b string) form { return allOf(anyOf(has(a), has(b)), not(allOf(has(a), has(b)))) }

var figureCaseForm = keys(
	key{"if", may, "A condition; left out where it always holds.", formulaForm},
	key{"says", need, "The text, with gaps for inputs and values: about {gap}.", words()},
)

var saysOrCases = []key{
	{"says", may, "The text, with gaps for inputs and values: about {gap}.", words()},
	{"cases", may, "In place of it, texts with conditions: the first that holds is said.", some(figureCaseForm)},
}

var figureTextForm = keys(append([]key{
	{"place", may, "sentence: folded, below the results; it is that where it is left out. result: below the drawing, two at most. warning: below these, never folded. fold: what opens the limits. label: in the drawing.", oneOf(string(figure.Sentence), string(figure.Result), string(figure.Warning), string(figure.Fold), string(figure.Label))},
}, saysOrCases...)...).with(either("says", "cases"))

var inputForm = keys(
	key{"label", need, "What is set.", words()},
	key{"hint", may, "A line of help below it.", wordsOrNone()},
	key{"hand", may, "With a measure: a few words of the label. With them its slider stands under the drawing.", wordsOrNone()},
	key{"if", may, "A condition of choices: where it fails the input is not shown.", formulaForm},
	key{"choices", may, "The choices, id to words that go into sentences; the first is the start.", form{"type": "object", "minProperties": 1, "additionalProperties": anyOf(words(), some(text()).with(form{"maxItems": 1}))}},
	key{"measure", may, "In place of choices: the amount that it takes.", keys(
		key{"unit", need, "The unit that a bare number counts in.", oneOf(units(false)...)},
		key{"accept", may, "Other units that a reader may use.", list(oneOf(units(true)...))},
		key{"from", need, "The least amount; a whole multiple of step.", number()},
		key{"to", need, "The greatest amount; a whole multiple of step.", number()},
		key{"step", need, "Amounts are rounded to it.", number().with(form{"exclusiveMinimum": 0})},
	)},
	key{"start", may, "With a measure: the amount at first, as a reader would type it.", text()},
	key{"slide", may, "With a measure: the step of the slider, where it is not the measure's.", number().with(form{"minimum": 0})},
	key{"cases", may, "With a measure: what stands beside the label, in place of the amount.", list(figureCaseForm)},
).with(either("choices", "measure")).with(form{
	"if":   has("choices"),
	"then": form{"properties": form{"start": false, "slide": false, "cases": false, "hand": false}},
	"else": has("start"),
})

var valueForm = keys(
	key{"is", may, "A formula.", formulaForm},
	key{"ways", may, "In place of it, formulas with conditions: the first that holds counts.", some(keys(
		key{"if", may, "A condition; left out where it always holds.", formulaForm},
		key{"is", need, "A formula.", formulaForm},
	))},
	key{"unit", may, "The unit in which it is said; left out for a plain number.", oneOf(units(true)...)},
	key{"step", need, "To what it is rounded when it is said.", number().with(form{"exclusiveMinimum": 0})},
	key{"alone", may, "true where it is said in this unit only.", yesNo()},
).with(either("is", "ways"))

var limitsForm = keys(
	key{"caption", need, "The head of the table.", words()},
	key{"of", need, "The value that is compared.", formulaForm},
	key{"near", need, "How near counts as the same.", formulaForm},
	key{"same", need, "What is said where the two are the same.", words()},
	key{"more", need, "What is said where the reader's value is above the limit.", words()},
	key{"less", need, "What is said where it is below.", words()},
	key{"marks", need, "The limits as formulas, by id.", namedForm.with(form{"minProperties": 1})},
	key{"rows", need, "The rows, in order.", some(keys(
		key{"where", need, "Where it holds.", words()},
		key{"limit", need, "The limit as it was published.", words()},
		key{"sources", need, "Ids of sources.", set(text()).with(form{"minItems": 1})},
		key{"mark", need, "Id of the mark that is the limit.", text()},
		key{"line", may, "A few words for the limit, where it is to be a line in the drawing too.", wordsOrNone()},
	))},
)

var typicalForm = keys(
	key{"caption", need, "The head of the table.", words()},
	key{"heads", need, "The heads of the columns.", list(text())},
	key{"cells", need, "The cells of a row, one a column, as texts with gaps.", list(text())},
	key{"rows", need, "The settings of each row, by input.", some(form{"type": "object", "additionalProperties": text()})},
)

var besideForm = keys(
	key{"question", need, "The question, as tree/question.", text()},
	key{"input", need, "Id of the input that begins at the reader's amount.", text()},
	key{"less", may, "Id of an input that the amount is without.", line()},
	key{"sum", may, "Ids of inputs that make up the amount together.", set(text())},
	key{"is", need, "Id of the input or value that is the amount.", text()},
	key{"by", may, "Id of an earlier question of the tree, where its answer says which input begins at the amount.", line()},
	key{"other", may, "Its answers, id to id of the input.", namedForm},
)
