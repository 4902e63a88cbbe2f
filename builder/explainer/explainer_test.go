package explainer_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

var words = explainer.NewWords([]explainer.Entry{
	{ID: "keel", Forms: []string{"keel", "keels"}},
	{ID: "foot-shell", Forms: []string{"foot shell", "foot shells"}},
	{ID: "shell", Forms: []string{"shell"}},
	{ID: "load-line", Forms: []string{"load line"}},
	{ID: "foot-flat", Forms: []string{"foot-flat"}},
	{ID: "symes-ankle", Forms: []string{"Syme's ankle"}},
	{ID: "fuss", Forms: []string{"Füße"}},
})

func target(kind, id string) explainer.Target {
	return explainer.Target{URL: kind + "/" + id + ".html", Title: "The " + id}
}

// html renders a text that must have no findings.
func html(t *testing.T, md string, o explainer.Options) explainer.Out {
	t.Helper()
	var list finding.List
	d := parse(md, &list)
	for _, f := range list.Sorted() {
		t.Errorf("%s: %s", f.Place, f.Text)
	}
	out, err := d.HTML(o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

const header = "---\ntitle: A\nmessage: B.\nauthors: [Us]\nreviewers: []\nreviewed: 2026-11-25\nreview-by: 2028-11-25\nfunding: None.\n---\n"

// headerLines is how many lines stand before a body.
const headerLines = 9

// parse reads md as the body of a page with a sound header; nil if it is no text.
func parse(md string, list *finding.List) *explainer.Doc {
	p := explainer.Parse("content/en/a.md", []byte(header+md), lines, list)
	if p == nil {
		return nil
	}
	p.Body.Read(list)
	return p.Body
}

var wordLink = regexp.MustCompile(`<a href="word/([a-z-]+)\.html" class="word">([^<]*)</a>`)

func TestGlossaryWords(t *testing.T) {
	for _, c := range []struct {
		name, md string
		want     string // the linked words: "id:as written"
	}{
		{"a word", "The keel bends.", "keel:keel"},
		{"another form of it", "Keels bend.", "keel:Keels"},
		{"the first use only", "A keel. The keel. Keels.", "keel:keel"},
		{"the first use on the page, not in each block", "A keel.\n\n- the keel\n\nKeels.", "keel:keel"},
		{"inside another word", "The keelson and a shellfish.", ""},
		{"with a hyphen it is another word", "A keel-less foot and a half-shell.", ""},
		{"a form with a hyphen", "It comes to foot-flat soon.", "foot-flat:foot-flat"},
		{"of two that begin alike the longer one", "The foot shell wears.", "foot-shell:foot shell"},
		{"and the shorter one where it stands alone", "The shell of a foot.", "shell:shell"},
		{"the shorter one after the longer", "A foot shell is a shell.", "foot-shell:foot shell shell:shell"},
		{"over a line end", "The load\nline falls here.", "load-line:load line"},
		{"over a line end in a list", "- the load\n  line falls here", "load-line:load line"},
		{"not over a hard line end", "The load  \nline falls here.", ""},
		{"not over a comma", "The load, line by line.", ""},
		{"not over a paragraph", "The load\n\nline.", ""},
		{"inside emphasis", "The *keel* bends.", "keel:keel"},
		{"inside strong emphasis", "The **foot shell** wears.", "foot-shell:foot shell"},
		{"not over the edge of emphasis", "The *load* line.", ""},
		{"not inside a link", "See [the keel](explainer:b).", ""},
		{"not inside a heading", "## The keel\n\nIt bends.", ""},
		{"but below it", "## The keel\n\nA keel bends.", "keel:keel"},
		{"not inside code", "Write `keel` here.", ""},
		{"not inside a listing", "```yaml\nkeel: 1\n```\n", ""},
		{"inside a table", "| a | b |\n|---|---|\n| c | keel |\n", "keel:keel"},
		{"inside a caution", "> **Stop.** Leave the keel.", "keel:keel"},
		{"a straight possessive", "The keel's tip.", "keel:keel"},
		{"a curved possessive", "The keel’s tip.", "keel:keel"},
		{"a form with an apostrophe of its own", "A Syme's ankle.", "symes-ankle:Syme's ankle"},
		{"in quotes", "A 'keel' and a \"shell\".", "keel:keel shell:shell"},
		{"with a dash behind it", "The keel - it bends. The shell-", "keel:keel shell:shell"},
		{"capitals", "KEEL", "keel:KEEL"},
		{"letters beyond ASCII", "Zwei füße.", "fuss:füße"},
		{"before a citation", "The keel.[](source:s) And the foot\nshell.[](source:s)", "keel:keel foot-shell:foot shell"},
		{"around a sign that is escaped", "The keel\\* and a \\_shell.", "keel:keel shell:shell"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := html(t, c.md, explainer.Options{Target: target, Words: words})
			var got []string
			for _, m := range wordLink.FindAllStringSubmatch(string(out.HTML), -1) {
				got = append(got, m[1]+":"+m[2])
			}
			if s := strings.Join(got, " "); s != c.want {
				t.Errorf("%q, and %q was expected\n%s", s, c.want, out.HTML)
			}
			// Linking words must change nothing else.
			bare := html(t, c.md, explainer.Options{Target: target})
			unlinked := wordLink.ReplaceAllString(string(out.HTML), "$2")
			if oneLine(unlinked) != oneLine(string(bare.HTML)) {
				t.Errorf("without word links\n%s\nand with them\n%s", bare.HTML, out.HTML)
			}
		})
	}
}

// oneLine lets a line end stand for a space, as a browser does.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestWordsIn(t *testing.T) {
	got := words.In("The foot shell of a keel, and keels, in a shell.")
	if diff := cmp.Diff([]string{"foot-shell", "keel", "shell"}, got); diff != "" {
		t.Error(diff)
	}
}

// small is a table of one cell under the head "a".
func small(name, cell string) string {
	return "<div class=\"table\" role=\"region\" tabindex=\"0\" aria-label=\"Table: " + name + "\"><table>\n<thead>\n<tr>\n<th scope=\"col\">a</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<th scope=\"row\">" + cell + "</th>\n</tr>\n</tbody>\n</table></div>"
}

func TestHTML(t *testing.T) {
	for _, c := range []struct {
		name, md, want string
		o              explainer.Options
		sources        []string
	}{
		{name: "citations are numbered by first use", md: "One.[](source:b)[](source:a) Two.[](source:b)", sources: []string{"b", "a"},
			want: `<p>One.` + cite(1) + cite(2) + ` Two.` + cite(1) + `</p>`},
		{name: "citations without marks are still named", md: "One.[](source:b) Two.", o: explainer.Options{Unmarked: true}, sources: []string{"b"},
			want: `<p>One. Two.</p>`},
		{name: "a link gets its target", md: "See [this page](explainer:b).",
			want: `<p>See <a href="explainer/b.html">this page</a>.</p>`},
		{name: "a link without words gets a title", md: "See [](tree:b).",
			want: `<p>See <a href="tree/b.html">The b</a>.</p>`},
		{name: "a new tab is announced", md: "See [](type:b).", o: explainer.Options{NewTab: true},
			want: `<p>See <a href="type/b.html" target="_blank">The b (opens in a new tab)</a>.</p>`},
		{name: "a link to a heading stays", md: "## Part\n\nSee [above](#part).",
			want: "<h2 id=\"part\">Part</h2>\n<p>See <a href=\"#part\">above</a>.</p>"},
		{name: "a caution", md: "> **Stop.** Do not walk.\n",
			want: "<div class=\"caution\" role=\"note\">\n<p><strong>Stop.</strong> Do not walk.</p>\n</div>"},
		{name: "a quote that is no caution", md: "> She said *stop*.\n",
			want: "<blockquote>\n<p>She said <em>stop</em>.</p>\n</blockquote>"},
		{name: "a quote that begins with emphasis is no caution", md: "> *Stop*, she said.\n",
			want: "<blockquote>\n<p><em>Stop</em>, she said.</p>\n</blockquote>"},
		{name: "a table has scope", md: "| foot | push |\n|:---|---:|\n| solid | little |\n",
			want: "<div class=\"table\" role=\"region\" tabindex=\"0\" aria-label=\"Table: foot, push\"><table>\n<thead>\n<tr>\n<th scope=\"col\">foot</th>\n<th scope=\"col\">push</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<th scope=\"row\">solid</th>\n<td>little</td>\n</tr>\n</tbody>\n</table></div>"},
		{name: "a wide table stacks, and each cell names its column", md: "| foot | measured & where | uncomfortable |\n|---|---|---|\n| microprocessor | ramp | |\n",
			want: "<div class=\"table stacks\" role=\"region\" tabindex=\"0\" aria-label=\"Table: foot, measured &amp; where, uncomfortable\"><div role=\"table\"><table role=\"presentation\">\n<thead role=\"rowgroup\">\n<tr role=\"row\">\n<th role=\"columnheader\" scope=\"col\">foot</th>\n<th role=\"columnheader\" scope=\"col\">measured &amp; where</th>\n<th role=\"columnheader\" scope=\"col\">uncomfortable</th>\n</tr>\n</thead>\n" +
				"<tbody role=\"rowgroup\">\n<tr role=\"row\">\n<th role=\"rowheader\" scope=\"row\">microprocessor</th>\n<td role=\"cell\"><span class=\"row\">measured &amp; where:</span> ramp</td>\n<td role=\"cell\"></td>\n</tr>\n</tbody>\n</table></div></div>"},
		{name: "tables with the same heads are told apart by their headings, and under one heading by a number", md: "## Gains\n\n| a |\n|---|\n| c |\n\n## Losses\n\n| a |\n|---|\n| d |\n\n| a |\n|---|\n| e |\n",
			want: "<h2 id=\"gains\">Gains</h2>\n" + small("a. Gains", "c") + "\n<h2 id=\"losses\">Losses</h2>\n" + small("a. Losses", "d") + "\n" + small("a. Losses (2)", "e")},
		{name: "signs are escaped", md: "a < b & \"c\" 'd'",
			want: "<p>a &lt; b &amp; &quot;c&quot; 'd'</p>"},
		{name: "a table's name is escaped", md: "| a \"b\" | & |\n|---|---|\n| c | d |\n",
			want: "<div class=\"table\" role=\"region\" tabindex=\"0\" aria-label=\"Table: a &quot;b&quot;, &amp;\"><table>\n<thead>\n<tr>\n<th scope=\"col\">a &quot;b&quot;</th>\n<th scope=\"col\">&amp;</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<th scope=\"row\">c</th>\n<td>d</td>\n</tr>\n</tbody>\n</table></div>"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.o.Target = target
			out := html(t, c.md, c.o)
			if diff := cmp.Diff(c.want, strings.TrimSpace(string(out.HTML))); diff != "" {
				t.Error(diff)
			}
			if diff := cmp.Diff(c.sources, out.Sources); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func cite(n int) string {
	return fmt.Sprintf(`<sup class="cite"><a href="#source-%d" aria-label="source %d">%d</a></sup>`, n, n, n)
}

func TestHeadingIDs(t *testing.T) {
	for _, c := range []struct {
		name, md string
		want     []string
	}{
		{"words joined by hyphens", "## What is it?\n", []string{"what-is-it"}},
		{"marks left out", "## The *keel*, `code` and [a link](explainer:b)\n", []string{"the-keel-code-and-a-link"}},
		{"letters of other scripts", "## Was tun die Füße?\n## Ступня\n## 足\n", []string{"was-tun-die-füße", "ступня", "足"}},
		{"letters with marks of their own", "## cafe\u0301\n", []string{"cafe\u0301"}},
		{"no letters at all", "## ?\n## !\n", []string{"section", "section-2"}},
		{"repeats are numbered", "## Part\n## Part\n## part\n", []string{"part", "part-2", "part-3"}},
		{"a number that is taken is passed over", "## Part 2\n## Part\n## Part\n", []string{"part-2", "part", "part-3"}},
		{"entities are letters", "## Salt &amp; w&auml;ter\n", []string{"salt-wäter"}},
		{"an escaped sign", "## One \\* two\n", []string{"one-two"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			d := parse(c.md, &list)
			var got []string
			for _, h := range d.Headings {
				got = append(got, h.ID)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
			out, err := d.HTML(explainer.Options{Target: target, Words: words})
			if err != nil {
				t.Fatal(err)
			}
			for _, id := range got {
				if !strings.Contains(string(out.HTML), `id="`+id+`"`) {
					t.Errorf("the page has no heading %q:\n%s", id, out.HTML)
				}
			}
		})
	}
}

func TestHeadingText(t *testing.T) {
	var list finding.List
	d := parse("## Salt &amp; \\*water\\* `a&amp;b`\n", &list)
	if got, want := d.Headings[0].Text, "Salt & *water* a&amp;b"; got != want {
		t.Errorf("%q, and %q was expected", got, want)
	}
}

func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		name, md, want string
	}{
		{"in the first line", "<br>", "1:1 raw-html"},
		{"behind letters of two bytes", "Füße <br>", "1:6 raw-html"},
		{"in a later line of a paragraph", "one\ntwo <br>", "2:5 raw-html"},
		{"the same link twice", "[a](b) and [a](b)", "1:1 outside-link; 1:12 outside-link"},
		{"a link by reference", "See [a][r].\n\n[r]: b.html\n", "1:5 outside-link"},
		{"a link over two lines", "x [a\nb](c)", "1:3 outside-link"},
		{"a link in emphasis", "x *y [a](b)*", "1:6 outside-link"},
		{"after a listing", "```yaml\na: b\n```\n\n<br>\n", "5:1 raw-html"},
		{"from Windows", "one\r\n\r\ntwo <br>\r\n", "3:5 raw-html"},
		{"an element that ends twice", "<b>x</b></b>", "1:1 raw-html"},
		{"an end without a beginning", "x</b>", "1:2 raw-html"},
		{"an element over blocks", "<div>\n\nx\n\n</div>\n", "1:1 raw-html"},
		{"a picture", "x ![a](b.png)", "1:3 image"},
		{"a block that is a picture of a link", "[![a](b.png)](c)", "1:1 outside-link; 1:2 image"},
		{"a listing that ends with the page", "```\na\n```", ""},
		{"an open listing in a list ends with it", "- ```\n  a\n\nb\n", ""},
		{"code that looks like a failed link", "`[a] (tree:b)`", ""},
		{"a real link with brackets behind it", "[a](tree:b) (tree:c)", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			if parse(c.md, &list) == nil {
				t.Fatal("no text")
			}
			var got []string
			for _, f := range list.Sorted() {
				got = append(got, fmt.Sprintf("%d:%d %s", f.Line-headerLines, f.Col, f.Check))
			}
			if s := strings.Join(got, "; "); s != c.want {
				t.Errorf("%q, and %q was expected", s, c.want)
			}
		})
	}
}

// A text inside a YAML value carries the value's place.
func TestShortText(t *testing.T) {
	at := finding.Place{File: "trees/a.yaml", Line: 7, Col: 11}
	var list finding.List
	explainer.ParseText(read.Text{S: "# One\n\n### Two <br> [a](b)", At: at}, lines, &list)
	var got []string
	for _, f := range list.Sorted() {
		if f.Place != at {
			t.Errorf("%s is at %s", f.Check, f.Place)
		}
		got = append(got, f.Check)
	}
	if diff := cmp.Diff([]string{"heading-level", "outside-link", "raw-html"}, got); diff != "" {
		t.Error(diff)
	}
	if text := explainer.ParseText(read.Text{S: "See [](tree:b).[](source:c)\n\n*More*."}, lines, &list).Text(say.English(), target, nil, nil); text != "See The b.\nMore." {
		t.Errorf("the text is %q", text)
	}
}

// Whatever a text holds, it comes back, and soon.
func TestHostile(t *testing.T) {
	for _, unit := range []string{"> ", "- ", "[", "![", "[a](", "[](x)", "*a_ ", "**a ", "`a``", "<a ", "<", "# a\n", "a|b\n-|-\n", "1. ", ">- ", "[a]: b\n", "&#0;", "\\", "x|", "[a] (tree:b)", "~~~\n", "\u0301", "keel ", "foot ", "# keel\n\n", "[](source:a) ", "| |\n"} {
		t.Run(fmt.Sprintf("%q", unit), func(t *testing.T) {
			t.Parallel()
			began := time.Now()
			for _, size := range []int{1000, 19_000, 250_000, 900_000} {
				var list finding.List
				d := parse(strings.Repeat(unit, size/len(unit)), &list)
				if _, err := d.HTML(explainer.Options{Target: target, Words: words}); err != nil {
					t.Error(err)
				}
			}
			if d := time.Since(began); d > time.Minute {
				t.Errorf("it took %v", d)
			}
		})
	}
}

func TestTooLarge(t *testing.T) {
	for _, c := range []struct {
		name, md, want string
	}{
		{"a block as long as may be", strings.Repeat("word ", 4096), ""},
		{"a block without an end", "Start.\n\n" + strings.Repeat("word ", 4097), "3:1 too-large"},
		{"a text without an end", strings.Repeat("word\n\n", 50000), "1:1 too-large"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var list finding.List
			d := parse(c.md, &list)
			got := ""
			for _, f := range list.Sorted() {
				got += fmt.Sprintf("%d:%d %s", f.Line-headerLines, f.Col, f.Check)
			}
			if got != c.want {
				t.Errorf("%q, and %q was expected", got, c.want)
			}
			if c.want != "" && len(d.Plain) > 0 {
				t.Error("it was read all the same")
			}
		})
	}
}
