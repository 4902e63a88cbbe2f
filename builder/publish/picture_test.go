package publish

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/conflict"
)

// picturePost and pictureTie are the client's (site/client/wishes/picture.ts).
type picturePost struct {
	ID   string
	Open bool
	Lean int
}

type pictureTie struct {
	No, Level int
	Ends      []int
	Open      bool
	Knot      *float64
}

type pictureOfPull struct {
	Posts  []picturePost
	Ties   []pictureTie
	Levels int
}

// For every set of up to four wishes the picture has one post a wish and one tie a
// conflict, between exactly its wishes; dashed where the conflict does not surely
// hold. With none or more than four wishes there is no picture.
func TestPictureOfEachMarking(t *testing.T) {
	m := conflict.In(load(t))
	var data map[string]any
	block := byID(t, pageNamed(t, builtin(t), pullsName), "pulls-data")
	if err := json.Unmarshal([]byte(block.FirstChild.Data), &data); err != nil {
		t.Fatal(err)
	}
	script := clienttest.Load(t, "wishes/picture.ts")
	sets := script.Value(data["sets"])
	tried := map[int]int{}
	m.Markings(func(marked conflict.Set) {
		ids := []string{}
		for _, w := range marked.List() {
			ids = append(ids, m.Wishes[w].ID.S)
		}
		out, err := script.Call("picture", sets, script.Value(ids))
		if err != nil {
			t.Fatal(err)
		}
		tried[len(ids)]++
		drawn := out.String() != "null"
		if want := len(ids) > 0 && len(ids) <= 4; drawn != want {
			t.Fatalf("%q: a picture is drawn: %v", ids, drawn)
		}
		if !drawn {
			return
		}
		var got pictureOfPull
		script.Into(out, &got)
		var want []pictureTie
		alone := map[string]bool{}
		no := 0
		for _, c := range conflict.Within(m.All, marked) {
			if !c.Note() {
				no++
			}
			var ends []int
			for _, w := range c.Wishes.List() {
				ends = append(ends, slices.IndexFunc(got.Posts, func(p picturePost) bool { return p.ID == m.Wishes[w].ID.S }))
			}
			if len(ends) == 1 {
				alone[got.Posts[ends[0]].ID] = true
				continue
			}
			slices.Sort(ends)
			want = append(want, pictureTie{No: no, Ends: ends, Open: c.Kind != conflict.Holds})
		}
		for i, tie := range got.Ties {
			if i >= len(want) || tie.No != want[i].No || !slices.Equal(tie.Ends, want[i].Ends) || tie.Open != want[i].Open {
				t.Fatalf("%q: the ties are %+v, want %+v", ids, got.Ties, want)
			}
		}
		if len(got.Ties) != len(want) {
			t.Fatalf("%q: %d ties, want %d", ids, len(got.Ties), len(want))
		}
		for _, p := range got.Posts {
			if p.Open != alone[p.ID] {
				t.Errorf("%q: the post of %s is an outline: %v", ids, p.ID, p.Open)
			}
		}
		checkPicture(t, ids, got)
	})
	// 12 wishes: 1, 12, 66, 220, 495 and 792 ways to take so many of them.
	if want := []int{1, 12, 66, 220, 495, 792}; !slices.EqualFunc(want, []int{0, 1, 2, 3, 4, 5}, func(n, size int) bool { return tried[size] == n }) {
		t.Errorf("tried %v, want %v", tried, want)
	}
}

// The shape of the picture holds for other tables, with ties of three and four ends.
func TestPictureOfMadeUpSets(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 4))
	script := clienttest.Load(t, "wishes/picture.ts")
	knots := 0
	for range 400 {
		n := 2 + r.IntN(3)
		var ids []string
		for i := range n {
			ids = append(ids, strconv.Itoa(i))
		}
		sets := []dataPull{}
		for bits := 1; bits < 1<<n; bits++ {
			if r.IntN(3) > 0 {
				continue
			}
			var of []string
			for i := range n {
				if bits&(1<<i) != 0 {
					of = append(of, ids[i])
				}
			}
			sets = append(sets, dataPull{ID: strconv.Itoa(bits), Of: of, Open: r.IntN(2) == 0})
		}
		out, err := script.Call("picture", script.Value(sets), script.Value(ids))
		if err != nil {
			t.Fatal(err)
		}
		var got pictureOfPull
		script.Into(out, &got)
		checkPicture(t, ids, got)
		for _, tie := range got.Ties {
			if tie.Knot != nil {
				knots++
			}
		}
	}
	if knots < 100 {
		t.Errorf("only %d ties had more than two ends", knots)
	}
}

// checkPicture holds what is so in every picture: no other order has shorter ties, no
// two ties run over one another, and a post leans away from where it is pulled.
func checkPicture(t *testing.T, ids []string, p pictureOfPull) {
	t.Helper()
	places := make([]int, len(p.Posts))
	for i := range places {
		places[i] = i
	}
	long := length(p.Ties, places)
	permute(places, 0, func(order []int) {
		if l := length(p.Ties, order); l < long {
			t.Errorf("%q: the ties are %d long, and in the order %v they are %d", ids, long, order, l)
		}
	})
	for i, a := range p.Ties {
		if deep := a.Level + rows(a); deep > p.Levels {
			t.Errorf("%q: tie %d hangs below the last of %d levels", ids, a.No, p.Levels)
		}
		if (a.Knot != nil) != (len(a.Ends) > 2) {
			t.Errorf("%q: tie %d has %d ends and a knot: %v", ids, a.No, len(a.Ends), a.Knot != nil)
		}
		for _, b := range p.Ties[:i] {
			beside := a.Ends[0] < last(b.Ends) && b.Ends[0] < last(a.Ends)
			if beside && a.Level < b.Level+rows(b) && b.Level < a.Level+rows(a) {
				t.Errorf("%q: ties %d and %d run over one another", ids, a.No, b.No)
			}
		}
	}
	for at, post := range p.Posts {
		right := 0 // ties that pull to the right, less those that pull to the left
		for _, tie := range p.Ties {
			if !slices.Contains(tie.Ends, at) {
				continue
			}
			switch {
			case tie.Knot != nil && *tie.Knot > float64(at), tie.Knot == nil && tie.Ends[0] == at:
				right++
			default:
				right--
			}
		}
		if post.Lean != -sign(right) {
			t.Errorf("%q: the post of %s leans %d, and %d more ties pull to the right", ids, post.ID, post.Lean, right)
		}
	}
}

// rows counts the levels that a tie takes.
func rows(tie pictureTie) int {
	if tie.Knot != nil {
		return 2
	}
	return 1
}

// length adds up how many places the ties span where the post at i goes to order[i].
func length(ties []pictureTie, order []int) (sum int) {
	for _, tie := range ties {
		from, to := math.MaxInt, 0
		for _, e := range tie.Ends {
			from, to = min(from, order[e]), max(to, order[e])
		}
		sum += to - from
	}
	return sum
}

func permute(of []int, from int, do func([]int)) {
	if from == len(of) {
		do(of)
		return
	}
	for i := from; i < len(of); i++ {
		of[from], of[i] = of[i], of[from]
		permute(of, from+1, do)
		of[from], of[i] = of[i], of[from]
	}
}

func last(of []int) int { return of[len(of)-1] }

func sign(n int) int {
	switch {
	case n > 0:
		return 1
	case n < 0:
		return -1
	}
	return 0
}
