package figure

var masses = []string{"kg", "lb", "st"}

var load = &Figure{
	ID: "load", Title: "Load to mention",
	About: "Add up what the foot bears: you, your clothes and leg, and what you often carry at once.",
	Lead:  "A foot bears you and all that you carry. Add it up here, and bring the number.",
	At: []Spot{
		{Question: "loads-and-weight/body", Input: "body", Is: "body"},
		{Question: "loads-and-weight/carried", Input: "pack", Sum: []string{"pack", "child", "tools"}, Is: "carried", By: "things", Other: map[string]string{"child": "child", "tools": "tools"}},
	},
	Inputs: []Input{
		{ID: "body", Label: "You, with clothes and leg on", Unit: "kg", Accept: masses, From: 10, To: 300, Step: 0.5, Start: 80, Slide: 1},
		{ID: "pack", Label: "A pack or bags", Unit: "kg", Accept: masses, From: 0, To: 150, Step: 0.5, Start: 8},
		{ID: "child", Label: "A child", Unit: "kg", Accept: masses, From: 0, To: 150, Step: 0.5, Start: 0},
		{ID: "tools", Label: "Tools, sacks or other things", Unit: "kg", Accept: masses, From: 0, To: 150, Step: 0.5, Start: 0},
	},
	Values: []Value{
		{ID: "carried", Is: "pack + child + tools", Unit: "kg", Step: 0.1},
		{ID: "body-only", Is: "body", Unit: "kg", Step: 0.1, Alone: true},
		{ID: "pack-only", Is: "pack", Unit: "kg", Step: 0.1, Alone: true},
		{ID: "child-only", Is: "child", Unit: "kg", Step: 0.1, Alone: true},
		{ID: "tools-only", Is: "tools", Unit: "kg", Step: 0.1, Alone: true},
		{ID: "load", Is: "load(body, pack, child, tools)", Unit: "kg", Step: 0.1},
	},
	Texts: []Text{
		{ID: "sum", Place: Sentence, Cases: []Case{
			{If: "carried > 0*kg", Text: "The load to mention is {load}. Of that you carry {carried}."},
			{Text: "The load to mention is {load}, with nothing carried."}}},
		{ID: "studies", Place: Sentence, Cases: []Case{
			{If: "carried > 32.7*kg", Text: "What you carry is more than in the studies we found. They went from 13.6 to 32.7 kg (30 to 72 lb), and do not agree on what helps."},
			{If: "carried > 0*kg", Text: "Studies of carried loads went from 13.6 to 32.7 kg (30 to 72 lb), and do not agree on what helps."}}},
		{ID: "ask", Place: Sentence, Cases: []Case{{Text: "Do not hold this number against a rating by yourself. Ask how the limit of your foot is meant."}}},
		{ID: "body-word", Place: Label, Cases: []Case{{Text: "you: {body-only}"}}},
		{ID: "pack-word", Place: Label, Cases: []Case{{If: "pack > 0*kg", Text: "pack: {pack-only}"}}},
		{ID: "child-word", Place: Label, Cases: []Case{{If: "child > 0*kg", Text: "child: {child-only}"}}},
		{ID: "tools-word", Place: Label, Cases: []Case{{If: "tools > 0*kg", Text: "tools: {tools-only}"}}},
		{ID: "total", Place: Label, Cases: []Case{{Text: "{load}"}}},
		{ID: "prompt", Place: Prompt, Cases: []Case{
			{If: "carried > 0*kg", Text: "With what I often carry, my foot bears about {load}. Does the limit of my foot count what I carry?"},
			{Text: "With clothes and leg I weigh about {load}. What is the limit of my foot, and what does it count?"}}},
	},
	Typical: Typical{
		Caption: "Some made-up people and what they carry",
		Heads:   []string{"Weight with clothes and leg", "Carried", "Load to mention"},
		Cells:   []string{"{body}", "{carried}", "{load}"},
		Rows: []map[string]string{
			{"body": "60 kg", "pack": "5 kg"}, {"body": "80 kg", "pack": "0 kg"}, {"body": "80 kg", "pack": "24.5 kg"},
			{"body": "95 kg", "pack": "0 kg", "child": "15 kg"}, {"body": "110 kg", "pack": "8 kg", "tools": "20 kg"},
		},
	},
	Notes: `> **Caution.** If you may be near or over the limit of your foot, call your clinic now. Until it is checked, do not jump or carry heavy things. If you see a crack, stop walking on it and take [](tree:something-changed).

> **Lab tests do not choose.** Both main standards for testing feet warn, in their own words, that they must not guide the choice of a device for one person, as that could put the wearer at risk.[](source:iso-10328-scope-2016)[](source:iso-22675-scope)

## What to make of it

Tell your prosthetist what you weigh and what you carry: children, tools, packs.[](source:clinic-limb-categories-2017)[](source:choosing-a-foot-answer) Weigh the real thing once, because guesses are often off. What to do about a load is not settled. One clinic goes up a step in stiffness,[](source:clinic-limb-categories-2017) and the title of a newer study says that a softer foot took the added load better.[](source:carried-load-studies) So ask, and try both with the load and without it.

[](explainer:weight-and-loads) says more, and [](tree:loads-and-weight) turns your loads into questions.`,
}
