package figure

var room = &Figure{
	ID: "room-under-the-socket", Title: "Room under the socket",
	About: "See what the build height of a foot is, how it is measured, and what else must fit under the limb.",
	Lead:  "All that is below your limb must fit between its end and the ground. The build height is the share that the foot takes.",
	Inputs: []Input{
		{ID: "room", Label: "From the end of the limb to the sole of the foot", Hint: "Your prosthetist measures this. With a shoe on, the shoe's sole comes below it.", Unit: "mm", Accept: lengths, From: 100, To: 400, Step: 1, Start: 260},
		{ID: "build", Label: "Build height of a foot", Hint: "From its sole, in its shell, to the top of its connector.", Unit: "mm", Accept: lengths, From: 40, To: 350, Step: 1, Start: 120},
		{ID: "parts", Label: "End of the socket and joining parts", Unit: "mm", Accept: lengths, From: 0, To: 120, Step: 1, Start: 40},
	},
	Values: []Value{
		{ID: "left", Is: "room - build - parts", Unit: "mm", Step: 1},
		{ID: "short", Is: "max(0*mm, -left)", Unit: "mm", Step: 1},
		{ID: "left-mm", Is: "left", Unit: "mm", Step: 1, Alone: true},
	},
	Texts: []Text{
		{ID: "what", Place: Sentence, Cases: []Case{{Text: "There are {room} in all. The foot takes {build}, and the end of the socket and the joining parts take {parts}."}}},
		{ID: "sum", Place: Sentence, Cases: []Case{
			{If: "left > 0*mm", Text: "By this sum, {left} are left for a tube and for what your prosthetist needs to set the leg."},
			{If: "left == 0*mm", Text: "By this sum, nothing is left. Ask if that can be built, and how it would be set."},
			{Text: "By this sum, the parts need {short} more than there is. Ask what else there is."}}},
		{ID: "made-up", Place: Sentence, Cases: []Case{{Text: "The numbers are made up until you put in your own. Ask for the true ones: they differ from foot to foot."}}},
		{ID: "left-word", Place: Label, Cases: []Case{{If: "left > 20*mm", Text: "left: {left-mm}"}}},
		{ID: "prompt", Place: Prompt, Cases: []Case{{Text: "From the end of my limb to the sole there are about {room}. Which build heights go into that, and what would I give up?"}}},
	},
	Typical: Typical{
		Caption: "Made-up numbers, to show the sum",
		Heads:   []string{"Room in all", "Build height", "Socket end and joining parts", "Left for a tube"},
		Cells:   []string{"{room}", "{build}", "{parts}", "{left}"},
		Rows: []map[string]string{
			{"room": "400 mm", "build": "120 mm"}, {"room": "260 mm", "build": "120 mm"}, {"room": "260 mm", "build": "180 mm"}, {"room": "170 mm", "build": "120 mm"},
		},
	},
	Notes: `## How it is measured

The room goes from the end of the limb down to the sole of the foot. The build height goes from the same sole, with the shell on, to the top of the connector that takes the tube. Ask if a number counts the shell and the shoe, as not all do.

## Why it matters

Some kinds of feet need more room than others, and [the side-by-side page](type:carbon-spring) tells it in words. A long limb leaves less room, and with a short limb there is more. We found no published list of build heights that we could check, so none is here. Your prosthetist has the numbers of each foot.

[](explainer:how-a-foot-is-built) shows what is inside.`,
}
