package figure

// The limits below are what the tree on heel height uses too; see its comments.
var heelChange = &Figure{
	ID: "heel-change", Title: "Heel change",
	About: "See what another pair of shoes does to a leg that is set up for one heel height.",
	Lead:  "Your leg is set up for one heel height. Put in two pairs of shoes and see which way the leg tips, and by about how much.",
	At: []Spot{
		{Question: "heel-height/usual", Input: "usual-heel", Less: "usual-ball", Is: "usual"},
		{Question: "heel-height/other", Input: "new-heel", Less: "new-ball", Is: "new"},
	},
	Inputs: []Input{
		{ID: "new-heel", Label: "Other shoes: sole under the heel", Unit: "mm", Accept: lengths, From: 0, To: 140, Step: 0.1, Start: 40, Slide: 1},
		{ID: "new-ball", Label: "Other shoes: sole under the ball of the foot", Unit: "mm", Accept: lengths, From: 0, To: 60, Step: 0.1, Start: 12, Slide: 1},
		{ID: "usual-heel", Label: "Usual shoes: sole under the heel", Hint: "The shoes in which the leg was set up.", Unit: "mm", Accept: lengths, From: 0, To: 140, Step: 0.1, Start: 22, Slide: 1},
		{ID: "usual-ball", Label: "Usual shoes: sole under the ball of the foot", Unit: "mm", Accept: lengths, From: 0, To: 60, Step: 0.1, Start: 12, Slide: 1},
		{ID: "length", Label: "Length of the foot", Unit: "mm", Accept: lengths, From: 180, To: 320, Step: 1, Start: 260, Slide: 5},
		{ID: "other-name", Label: "Call the other shoes", Choices: []Choice{{"other", "my other shoes"}, {"boots", "my work boots"}, {"dress", "my dress shoes"}, {"trainers", "my sneakers"}, {"sandals", "my sandals"}, {"slippers", "my slippers"}}},
		{ID: "usual-name", Label: "Call the usual shoes", Choices: []Choice{{"usual", "my usual shoes"}, {"trainers", "my sneakers"}, {"day", "my everyday shoes"}, {"boots", "my work boots"}}},
	},
	Values: []Value{ // heels are told apart by more than half a tenth of a millimeter, which is what is shown of them
		{ID: "new", Is: "effective_heel(new_heel, new_ball)", Unit: "mm", Step: 0.1},
		{ID: "usual", Is: "effective_heel(usual_heel, usual_ball)", Unit: "mm", Step: 0.1},
		{ID: "change", Is: "heel_change(new, usual)", Unit: "mm", Step: 0.1},
		{ID: "gap", Is: "abs(change)", Unit: "mm", Step: 0.1},
		{ID: "least", Is: "abs(least_tilt(change, length))/deg", Step: 0.1},
		{ID: "most", Is: "abs(most_tilt(change, length))", Unit: "deg", Step: 0.1},
		{ID: "most-n", Is: "most/deg", Step: 0.1},
		{ID: "heel-only", Is: "new_heel", Unit: "mm", Step: 0.1, Alone: true},
		{ID: "ball-only", Is: "new_ball", Unit: "mm", Step: 0.1, Alone: true},
		{ID: "lean", Is: "tilt(change, long_lever(260*mm))", Unit: "deg", Step: 0.5}, // of the drawn foot
		{ID: "sole-angle", Is: "tilt(new - 10*mm, long_lever(260*mm))", Unit: "deg", Step: 0.5},
	},
	Texts: []Text{
		{ID: "heights", Place: Sentence, Cases: []Case{{Text: "Heel height is the sole under the heel minus the sole under the ball. Usual shoes: {usual}. Other shoes: {new}."}}},
		{ID: "tips", Place: Sentence, Cases: []Case{
			{If: "change > 0.05*mm", Text: "The other shoes are {gap} higher at the heel. If nothing is set anew, the leg tips forward by about {least} to {most}, or less. The knee is pushed to bend, as if you walk downhill."},
			{If: "change < -0.05*mm", Text: "The other shoes are {gap} lower at the heel. If nothing is set anew, the leg tips back by about {least} to {most}, or less. The knee is pushed straight, as if you walk uphill."},
			{Text: "Both pairs have the same heel height, so the heel does not tip the leg."},
		}},
		{ID: "size", Place: Sentence, Cases: []Case{
			{If: "gap > 12.7*mm", Text: "That is more than wedges in the shoes can take up, as one expert puts it (up to about half an inch, or 13 mm). Ask what else there is."},
			{If: "gap > 5*mm", Text: "In one study, people were less at ease with heels 3 to 8 mm higher. Its authors say to watch for more than 5 mm."},
			{If: "gap > 0.05*mm", Text: "Small steps can be felt too, especially with an artificial knee."},
		}},
		{ID: "lean-1", Place: Label, Cases: []Case{{If: "gap > 0.05*mm", Text: "leg leans"}}},
		{ID: "lean-2", Place: Label, Cases: []Case{{If: "change > 0.05*mm", Text: "forward by"}, {If: "change < -0.05*mm", Text: "back by"}}},
		{ID: "lean-3", Place: Label, Cases: []Case{{If: "gap > 0.05*mm", Text: "{least} to {most-n}°"}}},
		{ID: "knee-1", Place: Label, Cases: []Case{{If: "gap > 0.05*mm", Text: "knee is"}}},
		{ID: "knee-2", Place: Label, Cases: []Case{{If: "gap > 0.05*mm", Text: "pushed"}}},
		{ID: "knee-3", Place: Label, Cases: []Case{{If: "change > 0.05*mm", Text: "to bend"}, {If: "change < -0.05*mm", Text: "straight"}}},
		{ID: "heel-word", Place: Label, Cases: []Case{{Text: "heel {heel-only}"}}},
		{ID: "ball-word", Place: Label, Cases: []Case{{Text: "ball {ball-only}"}}},
		{ID: "prompt", Place: Prompt, Cases: []Case{
			{If: "change > 0.05*mm", Text: "The heel height of {other-name} is {gap} more than that of {usual-name}. Can one setting serve both?"},
			{If: "change < -0.05*mm", Text: "The heel height of {other-name} is {gap} less than that of {usual-name}. Can one setting serve both?"},
			{Text: "I measured the same heel height in {other-name} and in {usual-name}. Could you check that with me?"},
		}},
	},
	Typical: Typical{
		Caption: "A change of heel on a foot of 26 cm, with nothing set anew",
		Heads:   []string{"Usual heel height", "Other heel height", "The other is", "The leg tips by about, or less"},
		Cells:   []string{"{usual}", "{new}", "{gap}", "{least} to {most}"},
		Rows: []map[string]string{
			{"usual-heel": "22 mm", "new-heel": "17 mm"}, {"usual-heel": "22 mm", "new-heel": "12 mm"},
			{"usual-heel": "22 mm", "new-heel": "27 mm"}, {"usual-heel": "22 mm", "new-heel": "32 mm"},
			{"usual-heel": "22 mm", "new-heel": "42 mm"}, {"usual-heel": "22 mm", "new-heel": "62 mm"},
		},
	},
	Notes: `> **Caution.** Do not try a new heel height alone if you have an artificial knee, a weak knee or falls. If new shoes feel wrong, go back to the old pair and call your clinic.

## What this leaves out

The sum is plain geometry. It takes the foot and the shoe as stiff, and you as standing still.[](source:army-body-measures-2014) A soft heel, the foam of a shoe or a knee that bends takes up a part. So the true tilt is often less, and how it feels no sum can say. The range is there because nobody knows where in the heel your weight comes in.

The way it goes is better known. A higher heel tips the leg forward, and a lower one tips it back.[](source:shoe-heel-answer-2014)[](source:three-women-footwear-cases) The study of small steps had 14 people with a leg lost below the knee.[](source:heel-rise-small-changes-2022)

## How to measure

Stand the shoe on a table. Measure up to where your heel rests inside, and up to where the ball of your foot rests. [](explainer:heel-height-measured) has the steps, and [](tree:heel-height) turns your shoes into questions.`,
}

var lengths = []string{"mm", "cm", "in"}
