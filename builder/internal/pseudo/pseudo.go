// Package pseudo makes a language that nobody speaks out of all words of the first: every letter
// has an accent and every text is about a third longer, or every letter is one of a script
// that runs from right to left. A site built in it shows each word that was left behind, and
// each place without room for a longer one. For tests only.
package pseudo

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"keelpath/builder/explainer"
	"keelpath/builder/say"
	"keelpath/builder/translation"
)

// Letters says how letters are changed.
type Letters int

const (
	Accented Letters = iota // Latin letters with accents, vowels twice
	Leftward                // Hebrew letters, as many
	Numbered                // letters as they are, and digits of another script
)

const (
	plain  = "abcdefghijklmnopqrstuvwxyz"
	accent = "áƀćđéƒğĥíĵķĺɱńóþǫŕśťúṽŵẋýź"
	upper  = "ÁɃĆĐÉƑĞĤÍĴĶĹṀŃÓÞǪŔŚŤÚṼŴẊÝŹ"
	hebrew = "אבגדהוזחטיכלמנסעפצקרשתאבגד"
	digits = "٠١٢٣٤٥٦٧٨٩"
)

// kept is what is no word in a text: gaps, where links lead, fences, entities, names of addresses.
var kept = regexp.MustCompile("\\{[^{}]*\\}|\\]\\([^()\\s]*\\)|`[^`]*`|&[a-z]+;|https?://\\S+")

// Text changes the letters of a text.
func (l Letters) Text(s string) string {
	var b strings.Builder
	from := 0
	for _, at := range kept.FindAllStringIndex(s, -1) {
		b.WriteString(l.letters(s[from:at[0]]))
		b.WriteString(s[at[0]:at[1]])
		from = at[1]
	}
	b.WriteString(l.letters(s[from:]))
	return b.String()
}

func (l Letters) letters(s string) string {
	var b strings.Builder
	if l == Numbered {
		return strings.Map(func(r rune) rune {
			if r >= '0' && r <= '9' {
				return []rune(digits)[r-'0']
			}
			return r
		}, s)
	}
	for _, r := range s {
		i := strings.IndexRune(plain, unicode.ToLower(r))
		switch {
		case i < 0:
			b.WriteRune(r)
		case l == Leftward:
			b.WriteRune([]rune(hebrew)[i])
			if strings.ContainsRune("aeo", r) {
				b.WriteRune([]rune(hebrew)[i])
			}
		default:
			set := accent
			if unicode.IsUpper(r) {
				set = upper
			}
			b.WriteRune([]rune(set)[i])
			if strings.ContainsRune("aeiou", r) {
				b.WriteRune([]rune(set)[i])
			}
		}
	}
	return b.String()
}

// Words gives the file of what the program says. What numbers are put together by stays as it is.
func (l Letters) Words(lang string, w *say.Words) []byte {
	return w.For(lang, func(name say.Name, text string) string {
		switch {
		case name == "formats.digits" && l == Numbered:
			return digits
		case name == "formats.point" && l == Numbered:
			return "٫"
		case name == "formats.digits" || name == "formats.group-from":
			return text
		}
		return l.Text(text)
	})
}

// Files gives the files of words of the language, by their names inside a layer.
func Files(lang string, l Letters, texts []translation.Need, pages []*explainer.Page, bodies func(file string) []byte) (map[string][]byte, error) {
	type entry struct {
		Of   string `yaml:"of"`
		Says any    `yaml:"says"`
	}
	words := map[string]map[string]entry{}
	for _, t := range texts {
		if words[t.File] == nil {
			words[t.File] = map[string]entry{}
		}
		says := make([]string, len(t.First))
		for i, first := range t.First {
			says[i] = l.Text(first)
		}
		e := entry{Of: t.Of, Says: says}
		if len(says) == 1 {
			e.Says = says[0]
		}
		words[t.File][t.Way] = e
	}
	out := map[string][]byte{}
	for name, w := range words {
		src, err := yaml.Marshal(w)
		if err != nil {
			return nil, err
		}
		out["content/"+lang+"/"+name] = src
	}
	for _, p := range pages {
		_, body, _ := strings.Cut(strings.TrimPrefix(string(bodies(p.File)), "---\n"), "\n---\n")
		says, name := map[string]string{"of": p.Of, "title": l.Text(p.Title.S), "message": l.Text(p.Message.S)}, p.ID+".md"
		if p.Lead != nil { // one of the site's own
			says["about"], name = l.Text(p.About.S), "pages/"+name
		} else {
			says["funding"] = l.Text(p.Credits.Funding.S)
		}
		header, err := yaml.Marshal(says)
		if err != nil {
			return nil, err
		}
		out["content/"+lang+"/"+name] = fmt.Appendf(nil, "---\n%s---\n%s", header, l.markdown(body))
	}
	return out, nil
}

// markdown changes the words of a page's text. In a listing only what a share says is for readers.
func (l Letters) markdown(body string) string {
	lines, inside := strings.Split(body, "\n"), false
	for i, line := range lines {
		switch says, ok := strings.CutPrefix(line, "says"); {
		case strings.HasPrefix(line, "```"):
			inside = !inside
		case inside && ok:
			lines[i] = "says" + l.Text(says)
		case inside && strings.HasPrefix(line, "within"):
			lines[i] = "within" + l.Text(line[len("within"):])
		case !inside:
			lines[i] = l.Text(line)
		}
	}
	return strings.Join(lines, "\n")
}

// word is a word of the first language: at least two small letters without an accent in a row.
var word = regexp.MustCompile(`[a-z]{2,}`)

// Left gives a word of the first language that is left in a text, or "".
func Left(text string) string { return word.FindString(Bare(text)) }

// Left gives what is left of the first language in a text: a word, or a number where only digits are changed.
func (l Letters) Left(text string) string {
	if l == Numbered {
		return western.FindString(Bare(text))
	}
	return Left(text)
}

var western = regexp.MustCompile(`[0-9]+`)

// Bare gives a text without what is no word in it.
func Bare(text string) string { return kept.ReplaceAllString(text, " ") }
