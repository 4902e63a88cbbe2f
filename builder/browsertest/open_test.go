package browsertest

import (
	"fmt"
	"testing"
)

// opened is where the picture and the name of a page stand.
type opening struct {
	Picture, Name box
	Listed        bool // the picture says something to who listens
	Wide          float64
}

const openedAt = `(() => {
const at = (e) => { const r = e.getBoundingClientRect(); return { X: r.left, Y: r.top + scrollY, Width: r.width, Height: r.height }; };
const svg = document.querySelector("main .opening svg");
return { Picture: at(svg), Name: at(document.querySelector("main h1")), Listed: svg.getAttribute("role") === "img", Wide: document.documentElement.scrollWidth }; })()`

// Every explainer begins with its picture: on a phone the picture stands over the name, with both in the first screen, and
// where there is room the name stands beside it. Nothing scrolls sideways.
func TestPagesBeginWithTheirPicture(t *testing.T) {
	t.Parallel()
	for _, wide := range []int64{360, 1280} {
		t.Run(fmt.Sprint(wide), func(t *testing.T) {
			t.Parallel()
			b := newTab(t)
			b.size(wide, phone)
			for _, e := range lib.Explainers {
				b.open(onDisk("learn/" + e.ID + ".html"))
				o := eval[opening](b, openedAt)
				if o.Wide > float64(wide) {
					t.Errorf("%s is %v wide on a screen of %d", e.ID, o.Wide, wide)
				}
				if o.Picture.Y < 0 || o.Picture.Height < 60 || o.Name.Y+o.Name.Height > phone {
					t.Errorf("%s: picture %+v and name %+v are not in the first screen", e.ID, o.Picture, o.Name)
				}
				if beside := o.Name.X+o.Name.Width <= o.Picture.X+1 && o.Name.Y < o.Picture.Y+o.Picture.Height; wide > 1000 && !beside {
					t.Errorf("%s: the name %+v does not stand beside the picture %+v", e.ID, o.Name, o.Picture)
				}
				if wide < 1000 && o.Picture.Y+o.Picture.Height > o.Name.Y+1 {
					t.Errorf("%s: the picture %+v does not stand over the name %+v", e.ID, o.Picture, o.Name)
				}
			}
		})
	}
}

// The shelf shows a drawing beside each page's name, small, and hidden from who listens.
func TestShelfIsDrawn(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	for _, wide := range []int64{320, 360, 1280} {
		b.size(wide, phone)
		b.open(onDisk("learn/index.html"))
		bad := eval[[]string](b, `Array.from(document.querySelectorAll(".shelf.drawn li")).filter((li) => {
const svg = li.querySelector("svg"), r = svg && svg.getBoundingClientRect(), a = li.querySelector("a").getBoundingClientRect();
return !svg || svg.getAttribute("aria-hidden") !== "true" || r.width < 60 || r.width > 110 || r.height < 20 || r.height > 110 || r.right > a.left || r.top > a.bottom; }).map((li) => li.textContent)`)
		if len(bad) > 0 {
			t.Errorf("at %d no drawing stands beside %q", wide, bad)
		}
		if n := eval[int](b, `document.querySelectorAll(".shelf.drawn li").length`); n != len(lib.Explainers) {
			t.Errorf("%d pages are on the shelf, want %d", n, len(lib.Explainers))
		}
		if w := eval[float64](b, `document.documentElement.scrollWidth`); w > float64(wide) {
			t.Errorf("the shelf is %v wide on a screen of %d", w, wide)
		}
	}
}
