package library_test

import (
	"regexp"
	"strings"
	"testing"

	"keelpath/builder/internal/librarytest"
	"keelpath/builder/tree"
)

// gait gives what the tree on gait says where the answers lead, without marks of weight.
func gait(t *testing.T, tr *tree.Tree, leg string, answers tree.Answers) string {
	t.Helper()
	answers["safety"], answers["leg"] = []string{"no"}, []string{leg}
	path, err := tr.Walk(answers)
	if err != nil || path.Ending == "" {
		t.Fatalf("%s %v: %v, open at %q", leg, answers, err, path.Open)
	}
	return strings.ReplaceAll(words(tr.Ending(path.Ending).Text.S), "**", "")
}

// Where the leg ends is asked before what is seen: below the knee and above it,
// socket flexion, its place and its tilt point different ways. Source: ICRC, Prosthetic
// Gait Analysis for Physiotherapists, 2014, p. 66-68 and 71-73, as quoted by page.
func TestGaitAsksWhereTheLegEnds(t *testing.T) {
	tr := librarytest.Load(t).Tree("gait-observation")
	q := tr.Question("leg")
	if q == nil || tr.Question("safety").Answers[1].Go.S != "leg" {
		t.Fatal("where the leg ends is not the first question after safety")
	}
	var said []string
	for _, a := range q.Answers {
		said = append(said, a.Text.S)
	}
	for _, want := range []string{"Below the knee", "Through the knee", "Above the knee"} {
		if !strings.Contains(strings.Join(said, "\n"), want) {
			t.Errorf("%q is no answer", want)
		}
	}
}

// What must stand at an ending and what must not, by direction. Sources: ICRC 2014 as
// above for both heights; a textbook's table and Japanese teaching pages where they
// agree with it. Whips: the knee faces where its axis was turned, the heel goes the
// other way (ICRC p. 71; Japanese pages). An inward or outward thrust: the textbook's table.
func TestGaitCausesByDirection(t *testing.T) {
	tr := librarytest.Load(t).Tree("gait-observation")
	const below, above, through = "below", "above", "through"
	at := func(kv ...string) tree.Answers {
		a := tree.Answers{}
		for i := 0; i < len(kv); i += 2 {
			a[kv[i]] = []string{kv[i+1]}
		}
		return a
	}
	strong := at("below-when", "landing", "below-landing", "bends", "heel-up", "no")
	weak := at("below-when", "landing", "below-landing", "straight", "heel-down", "no")
	buckles := at("thigh-when", "landing", "thigh-landing", "buckles", "thigh-heel-up", "no")
	leans := at("thigh-when", "middle", "thigh-middle", "lean")
	vaults := at("thigh-when", "early", "thigh-clear", "rises")
	for _, c := range []struct {
		leg       string
		answers   tree.Answers
		says, not []string
	}{
		{below, strong, []string{"too far forward over the foot", "flexed too much", "too stiff", "too far into dorsiflexion", "foot too far back"}, []string{"too little", "plantarflexion", "axis", "Prosthetic knee"}},
		{below, weak, []string{"too far back over the foot", "flexed too little", "too soft", "too far into plantarflexion", "foot too far forward"}, []string{"flexed too much", "dorsiflexion", "Prosthetic knee"}},
		{below, at("below-when", "late", "below-late", "drops"), []string{"flexed too much", "toe lever too short", "foot too far back", "dorsiflexion"}, []string{"plantarflexion", "too little"}},
		{below, at("below-when", "late", "below-late", "climbs"), []string{"flexed too little", "toe lever too long", "foot too far forward", "plantarflexion"}, []string{"dorsiflexion", "too much"}},
		{below, at("below-when", "middle", "below-middle", "outward"), []string{"foot set too far in under", "abduction or too little adduction"}, []string{"too far out", "wide base", "too long"}},
		{below, at("below-when", "middle", "below-middle", "inward"), []string{"foot set too far out under", "too much adduction"}, []string{"too far in ", "abduction", "too long", "wide base"}},
		{below, at("below-when", "front", "below-base", "wide"), []string{"too long", "foot set too far out"}, []string{"adduction", "too far in "}},
		{above, buckles, []string{"too little flexion of the socket", "too far back over the knee", "axis too far forward", "too firm"}, []string{"too much flexion", "flexed too much"}},
		{through, buckles, []string{"too little flexion of the socket", "axis too far forward", "No source that we read"}, []string{"too much flexion"}},
		{above, leans, []string{"too short", "too far out", "too little adduction", "short limb"}, []string{"too long", "too much adduction"}},
		{through, leans, []string{"too short", "too far out", "short limb is no cause"}, []string{"too long"}},
		{above, at("thigh-when", "middle", "thigh-middle", "sound"), []string{"too long"}, []string{"too short"}},
		{above, at("thigh-when", "middle", "thigh-middle", "arches"), []string{"too little flexion of the socket", "heel too high"}, []string{"too much flexion", "too low"}},
		{above, at("thigh-when", "late", "thigh-late", "drops"), []string{"foot too far back, too short", "dorsiflexion", "too soft"}, []string{"plantarflexion", "too long"}},
		{above, at("thigh-when", "late", "thigh-late", "climbs"), []string{"foot too far forward, too long"}, []string{"too far back", "too short"}},
		{above, at("thigh-when", "late", "thigh-late", "late"), []string{"too stable", "too much friction"}, []string{"too little friction"}},
		{above, at("thigh-when", "late", "thigh-late", "long"), []string{"too little flexion of the socket", "too little friction"}, []string{"too much"}},
		{above, vaults, []string{"too long", "too much friction", "or too little, so that the shank comes late", "plantarflexion"}, []string{"too short"}},
		{through, vaults, []string{"too long overall", "sits lower than the sound knee"}, []string{"too short"}},
		{above, at("thigh-when", "early", "thigh-clear", "circles"), []string{"too long", "too much friction", "extension aid too strong", "plantarflexion"}, []string{"too weak"}},
		{above, at("thigh-when", "shank", "thigh-shank", "inward"), []string{"axis turned too far outward", "outer side short", "too much toe-out"}, []string{"too far inward", "inner side", "toe-in"}},
		{above, at("thigh-when", "shank", "thigh-shank", "outward"), []string{"axis turned too far inward", "inner side short", "toe-in"}, []string{"too far outward", "outer side", "toe-out"}},
		{above, at("thigh-when", "shank", "thigh-shank", "high"), []string{"too little resistance or friction", "too weak", "too little flexion"}, []string{"too strong", "too much"}},
		{above, at("thigh-when", "shank", "thigh-shank", "low"), []string{"too much friction"}, []string{"too little"}},
		{above, at("thigh-when", "shank", "thigh-shank", "impact"), []string{"too little friction", "too strong", "too little flexion"}, []string{"too weak", "too much"}},
		{above, at("thigh-when", "landing", "thigh-landing", "slap"), []string{"soft or worn", "too little resistance as the toe goes down"}, []string{"too firm", "hard heel"}},
		{above, at("thigh-when", "front", "thigh-base", "wide"), []string{"too long", "too far out", "abduction"}, []string{"too short", "too far in"}},
		{above, at("thigh-when", "front", "thigh-base", "narrow"), []string{"too far in"}, []string{"too far out"}},
	} {
		text := gait(t, tr, c.leg, c.answers)
		for _, want := range c.says {
			if !strings.Contains(text, want) {
				t.Errorf("%s %v: it does not say %q:\n%s", c.leg, c.answers, want, text)
			}
		}
		for _, wrong := range c.not {
			if strings.Contains(text, wrong) {
				t.Errorf("%s %v: it says %q:\n%s", c.leg, c.answers, wrong, text)
			}
		}
	}
}

// The page for residents has what differs by height side by side. Sources: as above.
func TestGaitHeightsSideBySide(t *testing.T) {
	page := words(string(librarytest.Load(t).File("content/en/gait-deviations.md")))
	for _, row := range []string{
		"| Socket flexed too much | Knee bends soon, drop-off | Steadier, up to a point |",
		"| Socket flexed too little | Knee stays straight, late bend | Knee wants to buckle, the back arches, the heel rises high, the swing ends with a jolt |",
		"| Socket too far back | Knee pushed straight | Knee wants to buckle |",
		"| Knee axis too far forward | No such part | Knee wants to buckle |",
		"| Knee axis turned outward | No such part | Heel whips inward, and the reverse |",
		"| Foot set out too far | Knee thrusts inward | Wide base, trunk leans to the prosthetic side |",
		"| Foot set in too far | Knee thrusts outward | Narrow base |",
		"| Heel too soft | Knee stays straight or snaps back | Foot slaps |",
		"| Midstance | Knee thrusts outward | Foot set in too far; socket abducted or too wide |",
		"| Midstance | Knee thrusts inward | Foot set out too far; socket adducted too far |",
	} {
		if !strings.Contains(page, row) {
			t.Errorf("the page has no row %s", row)
		}
	}
}

// Toe-out in standing and a foot that turns as the heel lands are two findings: the
// second is a movement, with a firm heel as its first cause (study cards; Japanese
// pages), and the first is how the foot was set. Thrust, base and whips are apart as well.
func TestGaitFindingsStandApart(t *testing.T) {
	tr := librarytest.Load(t).Tree("gait-observation")
	for _, q := range []string{"below-base", "thigh-base"} {
		go_ := map[string]string{}
		for _, a := range tr.Question(q).Answers {
			go_[a.ID.S] = a.Go.S
		}
		if go_["points"] == go_["turns"] || go_["points"] == "" {
			t.Errorf("%s: a foot that points and one that turns lead to %q", q, go_["points"])
		}
	}
	if text := words(tr.Ending("toe-points").Text.S); strings.Contains(text, "bumper") || strings.Contains(text, "too firm") {
		t.Errorf("a foot that points out has causes of turning at contact: %s", text)
	}
	ends := map[string]string{}
	for _, of := range [][2]string{{"below-middle", "outward"}, {"below-middle", "inward"}, {"below-base", "wide"}, {"below-base", "narrow"}, {"thigh-shank", "inward"}, {"thigh-shank", "outward"}} {
		for _, a := range tr.Question(of[0]).Answers {
			if a.ID.S != of[1] {
				continue
			}
			if first := ends[a.Go.S]; first != "" {
				t.Errorf("%v and %s share the ending %q", of, first, a.Go.S)
			}
			ends[a.Go.S] = strings.Join(of[:], " ")
		}
	}
}

// No ending about a leg below the knee lists a prosthetic knee among the causes, and
// each one about the thigh says that it is.
func TestGaitEndingsNameTheirHeight(t *testing.T) {
	tr := librarytest.Load(t).Tree("gait-observation")
	knee := regexp.MustCompile(`\*\*Prosthetic knee:`)
	n := 0
	for _, e := range tr.Endings {
		switch id := e.ID.S; {
		case strings.HasSuffix(id, "-below"), strings.HasPrefix(id, "thrust-"), strings.HasPrefix(id, "heel-lever"):
			if n++; knee.MatchString(e.Text.S) {
				t.Errorf("%s lists a prosthetic knee", id)
			}
		case strings.HasPrefix(id, "buckles-"), strings.HasPrefix(id, "whip-in"), strings.HasPrefix(id, "whip-out"), strings.HasPrefix(id, "vaults-"), id == "heel-high", id == "heel-low", id == "impact":
			if n++; !knee.MatchString(e.Text.S) {
				t.Errorf("%s does not name the prosthetic knee", id)
			}
		}
	}
	if n < 18 {
		t.Errorf("only %d endings were looked at", n)
	}
}
