package publish

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/explainer"
	"keelpath/builder/prose"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

func TestRootOf(t *testing.T) {
	for name, want := range map[string]string{"index.html": "", "learn/index.html": "../", "a/b/c.html": "../../"} {
		if got := rootOf(name); got != want {
			t.Errorf("rootOf(%q) is %q, want %q", name, got, want)
		}
	}
}

func TestListed(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  string
	}{
		{nil, ""},
		{[]string{"a"}, "a"},
		{[]string{"a", "b"}, "a or b"},
		{[]string{"a", "b", "c"}, "a, b or c"},
	} {
		if got := say.English().Or(c.names...); got != c.want {
			t.Errorf("%q: %q, want %q", c.names, got, c.want)
		}
	}
}

func TestNumberOfAnySize(t *testing.T) {
	for in, want := range map[string]string{"7": "7", "595": "595", "1000": "1,000", "12345678901234567890": "12,345,678,901,234,567,890"} {
		if got := say.English().Decimal(in); got != want {
			t.Errorf("%q is said %q, want %q", in, got, want)
		}
	}
}

func TestDateView(t *testing.T) {
	if got, want := dateView(say.English(), "2026-03-05"), (DateView{"2026-03-05", "5 March 2026"}); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
}

// Of several texts, the page shows all authors, only reviewers of all, and the
// earliest dates.
func TestSharedCredits(t *testing.T) {
	texts := func(ss ...string) (out []read.Text) {
		for _, s := range ss {
			out = append(out, read.Text{S: s})
		}
		return out
	}
	credits := func(author string, reviewers []read.Text, reviewed, by, funding string) read.Credits {
		return read.Credits{
			Authors: texts(author), Reviewers: reviewers, Reviewed: read.Text{S: reviewed},
			ReviewBy: read.Text{S: by}, Funding: read.Text{S: funding},
		}
	}
	got := sharedCredits(say.English(), []read.Credits{
		credits("A", texts("R", "S"), "2026-02-02", "2027-05-05", "None."),
		credits("B", texts("S"), "2026-01-01", "2028-01-01", "None."),
	})
	want := CreditsView{
		Authors: []string{"A", "B"}, Reviewers: []string{"S"}, Funding: []string{"None."},
		Reviewed: DateView{"2026-01-01", "1 January 2026"}, ReviewBy: DateView{"2027-05-05", "5 May 2027"},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// What counts as text for the reading grade.
func TestPassages(t *testing.T) {
	got := passages([]byte(`<h1>Feet</h1><nav><a href="x">Not this</a></nav><p>One <a href="y">two</a><br>three.<sup class="cite"><a href="#s">1</a></sup> Four.</p>
<ul><li>Five</li><li>Six <span class="unseen">hidden <b>deep</b></span> seven</li></ul><table><tr><td>eight</td></tr></table>
<section class="sources"><p>nine</p></section><p>A &amp; b</p><details class="words"><p>no</p></details><dl class="words"><dt>no</dt><dd>Ten</dd></dl>
<p><span class="to">Ask no one.</span> Eleven.</p><figure><svg><title>no</title></svg></figure><p class="by-hand">Go to 4.</p><p>Twelve.</p>`))
	want := []string{"One two", "three. Four.", "Five", "Six seven", "", "A & b", "", "Ten", "Eleven.", "", "Twelve."}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if g := gradeOf(say.English(), prose.Of(passages([]byte("<nav>none</nav>")))); g != "" {
		t.Errorf("a page without text has the grade %q", g)
	}
}

func TestNumberSources(t *testing.T) {
	cell := func(ids ...string) cellView {
		var c cellView
		for _, id := range ids {
			c.Sources = append(c.Sources, LinkView{ID: id})
		}
		return c
	}
	types := []footTypeView{{Cells: []cellView{cell("b"), cell(), cell("a", "b")}}, {Cells: []cellView{cell("c", "a")}}}
	if got, want := numberSources(types), []string{"b", "a", "c"}; !slices.Equal(got, want) {
		t.Errorf("the sources are %q, want %q", got, want)
	}
	var got [][]int
	for _, v := range types {
		for _, c := range v.Cells {
			got = append(got, c.Numbers)
		}
	}
	if diff := cmp.Diff([][]int{{1}, nil, {2, 1}, {3, 2}}, got); diff != "" {
		t.Errorf("the numbers of the cells (-want +got):\n%s", diff)
	}
}

func TestSections(t *testing.T) {
	var all []explainer.Heading
	for i := range manySections {
		if got := sections(all); got != nil {
			t.Errorf("%d sections are listed: %v", i, got)
		}
		all = append(all, explainer.Heading{Level: 2, ID: fmt.Sprintf("part-%d", i)}, explainer.Heading{Level: 3, ID: "below"})
	}
	got := sections(all)
	if len(got) != manySections || slices.ContainsFunc(got, func(h explainer.Heading) bool { return h.Level != 2 }) {
		t.Errorf("of %d sections these are listed: %v", manySections, got)
	}
}
