package sheetcode

import (
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/tree"
)

// Every set of lines of a sheet, in each voice, has a code of its own and comes back from it.
func TestEverySetOfLines(t *testing.T) {
	_, b := builtin(t)
	id, path := lined(t, b)
	given, lines := tree.Answers{}, b.sayable(map[string]tree.Path{id: path})
	for _, step := range path.Steps {
		given[step.Question] = step.Chosen
	}
	if len(b.voices) != 2 {
		t.Fatalf("voices %v", b.voices)
	}
	codes := map[string]bool{}
	for _, v := range append(b.Voices(), Voice{}) {
		for bits := range 1 << len(lines) {
			s := Sheet{Taken: []string{id}, Answers: map[string]tree.Answers{id: given}, Voice: v.ID}
			for i, line := range lines {
				if bits>>i&1 == 1 {
					s.Unsaid = append(s.Unsaid, line)
				}
			}
			code, err := b.Encode(s)
			if err != nil || codes[code] {
				t.Fatalf("%v: %s: taken already, or %v", s, code, err)
			}
			codes[code] = true
			if got, err := b.Decode(code); err != nil || !same(s, got) {
				t.Fatalf("%s: %v\n%s", code, err, cmp.Diff(s, got))
			}
		}
	}
}

// What the paths cannot bring is not taken along, and a voice that the edition does not offer is an error.
func TestNotCarried(t *testing.T) {
	_, b := builtin(t)
	bare := Sheet{Taken: []string{}, Answers: map[string]tree.Answers{}}
	whole, err := b.Encode(bare)
	if err != nil {
		t.Fatal(err)
	}
	bare.Unsaid = []string{"no-such-fact", "heel-height/knee/fell", "weight"}
	if code, err := b.Encode(bare); err != nil || code != whole {
		t.Errorf("lines that were not told: %s, %v, and without them %s", code, err, whole)
	}
	bare.Voice = "nurse"
	if code, err := b.Encode(bare); err == nil || !strings.Contains(err.Error(), `"nurse"`) {
		t.Errorf("an unknown voice: %s, %v", code, err)
	}
}

// A prompt that fits no child does not come up where the reader speaks for one, so taking it off needs no room and putting it on
// does.
func TestWhatAVoiceTells(t *testing.T) {
	l, b := builtin(t)
	none := 0
	for _, p := range l.Prompts() {
		if !slices.Contains(b.fits[p.ID.S].Unless, "child") {
			continue
		}
		for _, tr := range b.trees {
			for _, e := range tr.Endings {
				given := tree.Answers{}
				for _, g := range l.Proofs[tr.ID.S].Witness[e.ID.S] {
					given[g.Question] = g.Chosen
				}
				path, err := tr.Walk(given)
				if err != nil {
					t.Fatal(err)
				}
				s := Sheet{Answers: map[string]tree.Answers{tr.ID.S: given}}
				paths := map[string]tree.Path{tr.ID.S: path}
				if !slices.Contains(b.cameUp(paths, s), p.ID.S) {
					continue
				}
				none++
				s.Voice = "person"
				if !slices.Contains(b.cameUp(paths, s), p.ID.S) {
					t.Errorf("%s does not come up at %s for a person", p.ID.S, e.ID.S)
				}
				s.Voice = "child"
				if slices.Contains(b.cameUp(paths, s), p.ID.S) {
					t.Errorf("%s comes up at %s for a child", p.ID.S, e.ID.S)
				}
			}
		}
	}
	if none == 0 {
		t.Error("no prompt that fits no child comes up at any ending")
	}
}

// Whatever is typed, what is read has that one code, and nothing takes long.
func FuzzCode(f *testing.F) {
	_, b := builtin(f)
	rnd := rand.New(rand.NewPCG(7, 12))
	for i := range 30 {
		code, err := b.Encode(randomSheet(rnd, b, 1+i%6, i%2 == 0))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(code)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := b.Decode(text)
		if err != nil {
			if err != Mistyped && err != OtherEdition {
				t.Fatal(err)
			}
			return
		}
		code, err := b.Encode(s)
		if err != nil || strip(code) != strings.TrimLeft(strip(text), "0") && strip(code) != strip(text) {
			t.Fatalf("%q is read as %v, whose code is %s: %v", text, s, code, err)
		}
	})
}

// The same behind the check symbol and the edition's mark, which keep most of what is typed away: any content with both in order.
func FuzzContent(f *testing.F) {
	_, b := builtin(f)
	rnd := rand.New(rand.NewPCG(8, 12))
	for i := range 30 {
		n, err := b.number(randomSheet(rnd, b, 1+i%6, i%2 == 0))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(n.Rsh(n, editionBits).Bytes())
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		if len(content) > 5*mostSymbols/8-4 {
			return
		}
		n := new(big.Int).SetBytes(content)
		n.Lsh(n, editionBits).Add(n, big.NewInt(int64(b.Edition)))
		code := spell(n)
		s, err := b.Decode(code)
		if err != nil {
			if err != Mistyped {
				t.Fatalf("%s: %v", code, err)
			}
			return
		}
		if again, err := b.Encode(s); err != nil || again != code {
			t.Fatalf("%s is read as %v, whose code is %s: %v", code, s, again, err)
		}
	})
}
