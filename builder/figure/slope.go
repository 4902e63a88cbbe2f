package figure

var slope = &Figure{
	ID: "slope", Title: "Slope",
	About: "See how many degrees an ankle must bend to stand foot-flat on a slope, up and down.",
	Lead:  "Put in your own slope. See how far an ankle must bend to stand on it with the foot flat, and what the rules for ramps and stairs allow.",
	At:    []Spot{{Question: "hills-and-ramps/steepness", Input: "steepness", Is: "slope"}},
	Inputs: []Input{
		{ID: "way", Label: "How do you know your slope?", Choices: []Choice{{"known", "I have a number, or a reading from a phone level"}, {"measured", "I measured how high it rises and how long it is"}}},
		{ID: "steepness", If: `way == "known"`, Label: "How steep it is", Hint: "In %, degrees, or like 1:12. A level on a phone shows degrees.", Unit: "%", Accept: []string{"%", "deg", "1:n"}, From: 0, To: 100, Step: 0.001, Start: 8.33, Slide: 0.5, Say: saySlope},
		{ID: "rise", If: `way == "measured"`, Label: "How high it rises", Unit: "mm", Accept: far, From: 0, To: 3000, Step: 1, Start: 80, Slide: 5},
		{ID: "run", If: `way == "measured"`, Label: "Over how much level length", Unit: "mm", Accept: far, From: 100, To: 20000, Step: 1, Start: 1000, Slide: 50},
	},
	Values: []Value{
		{ID: "slope", If: `way == "known"`, Is: "steepness", Unit: "%", Step: 0.1},
		{ID: "slope", If: "rise <= run", Is: "slope_of(rise, run)", Unit: "%", Step: 0.1},
		{ID: "ground", Is: "slope/(100*percent)", Step: 0.01},
		{ID: "grade", Is: "slope_percent(slope)", Step: 0.1},
		{ID: "n", Is: "slope_n(slope)", Step: 0.1},
		{ID: "needed", Is: "ankle_needed(slope)", Unit: "deg", Step: 0.1},
		{ID: "needed-n", Is: "needed/deg", Step: 0.1},
		{ID: "felt", Is: "abs(heel_felt(slope, long_lever(260*mm)))", Unit: "mm", Step: 1},
	},
	Texts: []Text{
		{ID: "slope-said", Place: Sentence, Cases: append([]Case{
			{If: `way == "measured" && rise > run`, Text: "That is steeper than 45 degrees, more than any ramp or stair. Please check the two lengths."},
			{If: "slope == 0*percent", Text: "The ground is level."}},
			Case{Text: "Your slope is about {grade} %, {needed}, or 1 in {n}."})},
		{ID: "asks", Place: Sentence, Cases: []Case{
			{If: "slope > 0*percent", Text: "To stand with the foot flat and the shin upright, the ankle must bend by about {needed}: toe up when you face up the slope, and toe down when you face down."},
			{If: "slope == 0*percent", Text: "To stand on it with the shin upright, the ankle need not bend."}}},
		{ID: "fixed", Place: Sentence, Cases: []Case{{If: "slope > 0*percent", Text: "A foot of 26 cm that does not bend at all acts here like a heel {felt} higher when you face down, and like one as much lower when you face up."}}},
		{ID: "studied", Place: Sentence, Cases: []Case{
			{If: "needed > 10*deg", Text: "This is steeper than the 5 and 10 degrees on which standing has been studied. Ask how many degrees your own ankle gives each way."},
			{If: "slope > 0*percent", Text: "Standing has been studied on 5 and on 10 degrees. Ask how many degrees your own ankle gives each way."}}},
		{ID: "bend-word", Place: Label, Cases: []Case{{If: "slope == 0*percent", Text: "level: no bend"}, {Text: "each bends {needed-n}° on {grade} %"}}},
		{ID: "prompt", Place: Prompt, Cases: []Case{
			{If: `way == "known" && slope > 0*percent`, Text: "My slope is {steepness}. How far does my ankle bend, up and down, when I stand on it?"},
			{If: "slope > 0*percent", Text: "My slope is about {grade} %, or {needed}. How far does my ankle bend, up and down, when I stand on it?"},
			{Text: "How far does my ankle bend, up and down, when I stand on a slope?"}}},
		{ID: "by-20", Place: Row, Cases: next("1/20*100")}, {ID: "by-14", Place: Row, Cases: next("1/14*100")},
		{ID: "by-12", Place: Row, Cases: next("1/12*100")}, {ID: "by-8", Place: Row, Cases: next("1/8*100")},
		{ID: "by-10pc", Place: Row, Cases: next("10")}, {ID: "by-20pc", Place: Row, Cases: next("20")},
		{ID: "by-stair", Place: Row, Cases: next("7/11*100")}, {ID: "by-home", Place: Row, Cases: next("7.75/10*100")},
	},
	Typical: Typical{
		Caption: "Some slopes, and how far an ankle bends to stand on them foot-flat",
		Heads:   []string{"Percent", "1 in", "Toe up, facing up", "Toe down, facing down"},
		Cells:   []string{"{grade} %", "1 in {n}", "{needed}", "{needed}"},
		Rows:    []map[string]string{{"steepness": "1:20"}, {"steepness": "1:14"}, {"steepness": "1:12"}, {"steepness": "1:10"}, {"steepness": "1:8"}, {"steepness": "16 %"}, {"steepness": "20 %"}},
	},
	Beside: []Beside{
		{"US walkway", "1 in 20 (5 %)", []string{"us-walking-slope-rule-2010"}, "by-20"},
		{"Australia, ramp", "1 in 14 (7.1 %)", []string{"australia-ramp-standard"}, "by-14"},
		{"US ramp and curb ramp", "1 in 12 (8.3 %)", []string{"us-ramp-slope-rule-2010", "us-curb-ramp-rule-2010"}, "by-12"},
		{"UK guidance, with a landing each 2 m; Ireland, each 5 m", "1 in 12 (8.3 %)", []string{"uk-ramp-guidance", "ireland-ramp-guidance-2010"}, "by-12"},
		{"Driveway, the least of three US local codes", "10 %", []string{"us-driveway-codes"}, "by-10pc"},
		{"US ramp on an old site, for a rise up to 3 inches; US federal trail, steepest short part", "1 in 8 (12.5 %)", []string{"us-ramp-slope-rule-2010", "us-trail-slope-rules"}, "by-8"},
		{"Driveway, the most of three US local codes", "20 %", []string{"us-driveway-codes"}, "by-20pc"},
		{"US public stair, 7 inches up on 11 deep", "63.6 % (32.5 degrees)", []string{"us-stair-rule-2010"}, "by-stair"},
		{"Stair in a US home, 7 3/4 inches up on 10 deep", "77.5 % (37.8 degrees)", []string{"us-home-stair-code-2018"}, "by-home"},
	},
	Notes: `> **Caution.** Try a new slope with a rail and with someone close by. If your knee is pushed to bend, or you slide in the socket, stop and tell your team.

## What this leaves out

This is about standing still with the foot flat, as in two studies.[](source:standing-on-slopes-2017)[](source:standing-on-5-degree-slope-2020) Walking is not the same, for the shin tips with each step. What the ankle does not give, the knee, the hip or the other leg has to. The limits are about buildings and paths, and say nothing of what a foot or a person can do. On stairs the foot stands on a level step, so there the angle is the way you climb and not one for the ankle.

[](explainer:slopes-and-ramps) tells how to measure a ramp, and [](tree:hills-and-ramps) turns yours into questions.`,
}

var far = []string{"mm", "cm", "m", "in", "ft"}

var saySlope = []Case{
	{If: "steepness == 0*percent", Text: "level"},
	{If: "steepness >= 0.1*percent", Text: "{steepness}"},
	{Text: "nearly level"},
}

// next compares the reader's slope with a limit in percent, to a tenth of a percent.
func next(limit string) []Case {
	limit = "(" + limit + ")*percent"
	return []Case{
		{If: "abs(slope - " + limit + ") < 0.05*percent", Text: "as steep as yours"},
		{If: "slope > " + limit, Text: "yours is steeper"},
		{If: "slope < " + limit, Text: "yours is less steep"},
	}
}
