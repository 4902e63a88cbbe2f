package figure

var footAndShoe = &Figure{
	ID: "foot-and-shoe", Title: "Foot and shoe length",
	About: "Turn the inside of a shoe, the other foot or a shoe size into whole-centimeter lengths to talk about.",
	Lead:  "Artificial feet come in whole centimeters. See which lengths come up from your shoe or your other foot, and how sure that is.",
	Inputs: []Input{
		{ID: "from", Label: "Start from", Choices: []Choice{{"inside", "the inside length of a shoe"}, {"other", "my other foot"}, {"size", "a shoe size"}}},
		{ID: "inside", If: `from == "inside"`, Label: "Inside length of the shoe, heel to toe", Unit: "mm", Accept: lengths, From: 180, To: 340, Step: 1, Start: 276},
		{ID: "shape", If: `from == "inside"`, Label: "Shape of the toe", Choices: []Choice{{"round", "round or square"}, {"pointed", "very pointed"}}},
		{ID: "other", If: `from == "other"`, Label: "Length of my other foot", Unit: "mm", Accept: lengths, From: 180, To: 320, Step: 1, Start: 262},
		{ID: "system", If: `from == "size"`, Label: "Kind of size", Choices: []Choice{{"eu", "European"}, {"uk", "UK"}, {"men", "US men's"}, {"women", "US women's"}}},
		{ID: "eu", If: `from == "size" && system == "eu"`, Label: "European size", Unit: "1", From: 32, To: 50, Step: 0.5, Start: 42},
		{ID: "uk", If: `from == "size" && system == "uk"`, Label: "UK size", Unit: "1", From: 1, To: 15, Step: 0.5, Start: 8},
		{ID: "men", If: `from == "size" && system == "men"`, Label: "US men's size", Unit: "1", From: 2, To: 16, Step: 0.5, Start: 9},
		{ID: "women", If: `from == "size" && system == "women"`, Label: "US women's size", Unit: "1", From: 3, To: 16, Step: 0.5, Start: 9},
	},
	Values: []Value{
		// The low and the high end of a foot length, then the whole centimeters between.
		{ID: "low", If: `from == "inside" && shape == "pointed"`, Is: "foot_size_pointed(inside)", Unit: "mm", Step: 1},
		{ID: "low", If: `from == "inside"`, Is: "foot_size(inside)", Unit: "mm", Step: 1},
		{ID: "low", If: `from == "other"`, Is: "foot_size(other)", Unit: "mm", Step: 1},
		{ID: "low", If: `system == "eu"`, Is: "foot_size(foot_eu_low(eu) + 9.99*mm)", Unit: "mm", Step: 1},
		{ID: "low", If: `system == "uk"`, Is: "foot_size(foot_uk_low(uk) + 9.99*mm)", Unit: "mm", Step: 1},
		{ID: "low", If: `system == "men"`, Is: "foot_size(foot_us_men_low(men) + 9.99*mm)", Unit: "mm", Step: 1},
		{ID: "low", Is: "foot_size(foot_us_women_low(women) + 9.99*mm)", Unit: "mm", Step: 1},
		{ID: "longest", If: `from == "inside"`, Is: "low", Unit: "cm", Step: 1},
		{ID: "longest", If: `from == "other"`, Is: "foot_size(other + 9.99*mm)", Unit: "cm", Step: 1},
		{ID: "longest", If: `system == "eu"`, Is: "foot_size(foot_eu_high(eu))", Unit: "cm", Step: 1},
		{ID: "longest", If: `system == "uk"`, Is: "foot_size(foot_uk_high(uk))", Unit: "cm", Step: 1},
		{ID: "longest", If: `system == "men"`, Is: "foot_size(foot_us_men_high(men))", Unit: "cm", Step: 1},
		{ID: "longest", Is: "foot_size(foot_us_women_high(women))", Unit: "cm", Step: 1},
		// Less than a quarter inch of room at the toe brings up the length below too.
		{ID: "spare", If: `from == "inside"`, Is: "inside - longest", Unit: "mm", Step: 1},
		{ID: "spare", Is: "0*mm", Unit: "mm", Step: 1},
		{ID: "shortest", If: `from == "inside" && spare < 6.35*mm`, Is: "low - 10*mm", Unit: "cm", Step: 1},
		{ID: "shortest", Is: "low", Unit: "cm", Step: 1},
		{ID: "first", Is: "shortest/(10*mm)", Step: 1},
		{ID: "last", Is: "longest/(10*mm)", Step: 1},
		{ID: "told", If: `from == "inside"`, Is: "inside", Unit: "mm", Step: 1},
		{ID: "told", If: `from == "other"`, Is: "other", Unit: "mm", Step: 1},
		{ID: "told", Is: "longest", Unit: "mm", Step: 1},
		{ID: "roughly", If: `system == "eu"`, Is: "foot_eu(eu)", Unit: "mm", Step: 1},
		{ID: "roughly", If: `system == "uk"`, Is: "foot_uk(uk)", Unit: "mm", Step: 1},
		{ID: "roughly", If: `system == "men"`, Is: "foot_us_men(men)", Unit: "mm", Step: 1},
		{ID: "roughly", Is: "foot_us_women(women)", Unit: "mm", Step: 1},
	},
	Texts: []Text{
		{ID: "come-up", Place: Sentence, Cases: []Case{
			{If: "shortest == longest", Text: "The whole length to talk about is {longest}."},
			{Text: "The whole lengths to talk about go from {shortest} to {longest}."}}},
		{ID: "because", Place: Sentence, Cases: []Case{
			{If: `from == "inside" && shape == "pointed"`, Text: "The inside of the shoe is rounded down to whole centimeters, and one is taken off for a very pointed toe."},
			{If: `from == "inside"`, Text: "The inside of the shoe is rounded down to whole centimeters."},
			{If: `from == "other"`, Text: "These are the whole centimeters next to your other foot. The shoe decides too: measure its inside."},
			{Text: "This size goes with a foot of roughly {roughly}, up to 10 mm more or less. Makers differ, so measure the inside of the shoe."}}},
		{ID: "room", Place: Sentence, Cases: []Case{
			{If: `from == "inside" && spare < 6.35*mm`, Text: "A foot of {longest} leaves {spare} at the toe. One expert wants a quarter to half an inch (6 to 13 mm), so the length below comes up too."},
			{If: `from == "inside" && spare > 12.7*mm`, Text: "A foot of {longest} leaves {spare} at the toe. One expert wants a quarter to half an inch (6 to 13 mm), so ask what keeps the foot from sliding."},
			{If: `from == "inside"`, Text: "A foot of {longest} leaves {spare} at the toe. One expert wants a quarter to half an inch (6 to 13 mm)."}}},
		{ID: "beyond", Place: Sentence, Cases: []Case{{If: "longest > 300*mm || shortest < 220*mm", Text: "Feet for adults come from 22 to 30 cm. A part of this lies outside, so ask what there is."}}},
		{ID: "lengths", Place: Label, Cases: []Case{{If: "shortest == longest", Text: "to talk about: {first} cm"}, {Text: "to talk about: {first} to {last} cm"}}},
		{ID: "prompt", Place: Prompt, Cases: []Case{
			{If: `from == "inside"`, Text: "My shoe is {told} long inside. Which foot length would you try in it, and how much room is left at the toe?"},
			{If: `from == "other"`, Text: "My other foot is {told} long. Which foot length would you try, and in which of my shoes?"},
			{If: `system == "eu"`, Text: "I wear a European size {eu}. Could we measure the inside of my shoe and see which foot length goes in?"},
			{If: `system == "uk"`, Text: "I wear a UK size {uk}. Could we measure the inside of my shoe and see which foot length goes in?"},
			{If: `system == "men"`, Text: "I wear a US men's size {men}. Could we measure the inside of my shoe and see which foot length goes in?"},
			{Text: "I wear a US women's size {women}. Could we measure the inside of my shoe and see which foot length goes in?"}}},
	},
	Typical: Typical{
		Caption: "Some shoes measured inside, and the whole lengths to talk about",
		Heads:   []string{"Inside of the shoe", "From", "To", "Room at the toe with the longer"},
		Cells:   []string{"{told}", "{shortest}", "{longest}", "{spare}"},
		Rows:    []map[string]string{{"inside": "248 mm"}, {"inside": "256 mm"}, {"inside": "263 mm"}, {"inside": "276 mm"}, {"inside": "276 mm", "shape": "pointed"}, {"inside": "289 mm"}},
	},
	Notes: `## Where the rule is from

Put a tape inside the shoe from heel to toe, and round down to a whole centimeter. For a very pointed shoe, take one off. The room at the toe is from the same page of advice.[](source:foot-and-shoe-fit-1996) One clinic rounds in the same way.[](source:clinic-shoe-page) How a foot fits is seen only when it is tried in the shoe.

## How sure a shoe size is

Not very. The standard itself says that no size system turns into another without a loss.[](source:shoe-size-standard-2015) Published pages differ by up to a full size for one foot.[](source:shoe-size-page-chart) So the figure gives 10 mm more or less, and a measured length tells more.

Bring the pairs you wear most. [](tree:foot-shell-and-toes) has questions on the shell and the toes.`,
}
