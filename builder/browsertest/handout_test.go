package browsertest

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	multi "github.com/makiuchi-d/gozxing/multi/qrcode"

	"keelpath/builder/internal/sitetest"
	"keelpath/builder/library"
	"keelpath/builder/publish"
)

const invitePage = "clinic/invite.html"

// layered builds the site with the example layer, and more files over it, and gives its folder.
func layered(t *testing.T, files map[string]string) string {
	t.Helper()
	layers := []string{filepath.Join("..", "..", "testdata", "layers", "alder-quay")}
	if len(files) > 0 {
		dir := t.TempDir()
		for name, text := range files {
			p := filepath.Join(dir, filepath.FromSlash(name))
			if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		layers = append(layers, dir)
	}
	dir := filepath.Join(t.TempDir(), "site")
	if _, err := sitetest.Build(t.Context(), dir, layers...); err != nil {
		t.Fatal(err)
	}
	return dir
}

// pickForPrint picks topics in their order, and what to print.
func (b *tab) pickForPrint(kind string, topics ...string) {
	b.t.Helper()
	b.run(fmt.Sprintf(`(() => {
const box = (value) => document.querySelector('#invite input[value="' + value + '"]');
document.querySelectorAll("#invite input:checked[type=checkbox]").forEach((c) => c.click());
for (const id of %s) box(id).click();
box(%s).click();
})()`, quoted(b, append([]string{}, topics...)), quoted(b, kind)))
}

// found is a square code on a printed sheet: what it says and, in millimetres, how large a module is and how much
// is free on the side that has least.
type found struct {
	says          string
	module, quiet float64
}

const sheetDPI = 400

// codes reads the square codes of the first sheet by a decoder that is not ours, and measures each of them.
func (p printout) codes() []found {
	p.t.Helper()
	img, err := png.Decode(bytes.NewReader(run(p.t, "pdftoppm", "-r", fmt.Sprint(sheetDPI), "-gray", "-png", "-singlefile", p.file)))
	if err != nil {
		p.t.Fatal(err)
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		p.t.Fatal(err)
	}
	all, err := multi.NewQRCodeMultiReader().DecodeMultiple(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true})
	if err != nil {
		p.t.Fatalf("no code is read: %v", err)
	}
	var out []found
	for _, r := range all {
		module, quiet := measured(img, r.GetResultPoints())
		out = append(out, found{r.GetText(), module * 25.4 / sheetDPI, quiet * 25.4 / sheetDPI})
	}
	return out
}

// measured tells in dots how large a module is, and how far the nearest other ink is. The points are the middles of
// the three large squares, each of seven modules: lower left, upper left, upper right (ISO/IEC 18004).
func measured(img image.Image, at []gozxing.ResultPoint) (module, free float64) {
	dark := func(x, y int) bool { r, _, _, _ := img.At(x, y).RGBA(); return r < 0x8000 }
	// edge is where the third change of tone from the middle of a square on is: its outer edge.
	edge := func(from gozxing.ResultPoint, dx, dy int) (int, int) {
		x, y := int(from.GetX()), int(from.GetY())
		for change, was := 0, true; change < 3; x, y = x+dx, y+dy {
			if now := dark(x, y); now != was {
				change, was = change+1, now
			}
		}
		return x - dx, y - dy
	}
	left, _ := edge(at[1], -1, 0)
	_, top := edge(at[1], 0, -1)
	right, _ := edge(at[2], 1, 0)
	_, bottom := edge(at[0], 0, 1)
	module = math.Hypot(float64(at[2].GetX()-at[1].GetX()), float64(at[2].GetY()-at[1].GetY()))
	module = (float64(right-left-1) - module) / 7
	// A ring around the code grows until it meets ink or the sheet's edge.
	for ring := 0; ; ring++ {
		l, t, r, b := left-ring, top-ring, right+ring, bottom+ring
		if l < 0 || t < 0 || r >= img.Bounds().Dx() || b >= img.Bounds().Dy() {
			return module, float64(ring)
		}
		for x := l; x <= r; x++ {
			if dark(x, t) || dark(x, b) {
				return module, float64(ring)
			}
		}
		for y := t; y <= b; y++ {
			if dark(l, y) || dark(r, y) {
				return module, float64(ring)
			}
		}
	}
}

// A print's codes lead where it says, with modules of half a millimetre or more and four modules free around them
// (ISO/IEC 18004; facts: language-and-offline 4). It names the clinic, the stance and whom to call, has no place for
// a name and is one sheet, whatever was picked, on both papers, also from a page in the dark.
func TestInvitationsPrinted(t *testing.T) {
	t.Parallel()
	at := "https://keelpath.alder-quay.example/"
	picks := [][]string{nil, {"hills-and-ramps"}, {"work", "heel-height"}, {"motion-or-push", "water-and-weather", "heel-height", "limb-and-phantom-pain"}}
	b := newTab(t)
	b.open(sitetest.OnDisk(layered(t, nil), invitePage))
	for i, topics := range picks {
		for _, kind := range []string{"letter", "cards", "poster"} {
			b.pickForPrint(kind, topics...)
			for j, paper := range []string{"A4", "Letter"} {
				if (i+j)%2 == 1 && kind != "poster" { // a poster fills its sheet
					continue
				}
				p := b.print(paper, fmt.Sprintf("invitation-%s-%d", kind, i))
				checkInvitation(t, p, kind, invitationTo(at, topics), topics)
				if kind == "cards" {
					b.checkCardType()
				}
			}
		}
	}
	b.media("prefers-color-scheme", "dark")
	p := b.print("A4", "invitation-dark")
	checkInvitation(t, p, "poster", invitationTo(at, picks[3]), picks[3])
}

func invitationTo(at string, topics []string) string {
	switch len(topics) {
	case 0:
		return at + "start/"
	case 1:
		return at + "start/" + topics[0] + ".html"
	}
	return at + "prepare/index.html#take=" + strings.Join(topics, ",")
}

// cardsOf is how many cards are on a sheet: long titles of three topics or more may need higher ones.
func cardsOf(topics []string) int {
	if len(topics) > 2 {
		return 6
	}
	return 8
}

// checkCardType holds that no type on a card is smaller than 3 mm.
func (b *tab) checkCardType() {
	b.t.Helper()
	mm := eval[float64](b, `(() => {
  const card = document.querySelector(".handout .card"), all = Array.from(card.querySelectorAll("p, li, span, a"));
  return Math.min(...all.map((e) => parseFloat(getComputedStyle(e).fontSize))) / (card.getBoundingClientRect().width / 85.6);
})()`)
	if mm < 2.99 {
		b.t.Errorf("type on a card is %.2f mm", mm)
	}
}

func checkInvitation(t *testing.T, p printout, kind, want string, topics []string) {
	t.Helper()
	name := fmt.Sprintf("%s to %q", kind, topics)
	if p.Pages != 1 {
		t.Errorf("%s: %d sheets", name, p.Pages)
	}
	codes, n := p.codes(), 1
	if kind == "cards" {
		n = cardsOf(topics)
	}
	if len(codes) != n {
		t.Errorf("%s: %d codes are read, want %d", name, len(codes), n)
	}
	for _, c := range codes {
		if c.says != want {
			t.Errorf("%s: a code says %q, want %q", name, c.says, want)
		}
		if c.module < 0.5 {
			t.Errorf("%s: a module is %.3f mm", name, c.module)
		}
		if c.quiet < 3.9*c.module { // dots are a sixth of a module at most
			t.Errorf("%s: %.2f mm are free, and a module is %.2f mm", name, c.quiet, c.module)
		}
	}
	says := []string{"Alder Quay Limb Clinic", "does not pick a foot or set a level", "In an emergency: Call 911 in the US", "555 0100", "keelpath.alder-quay.example/"}
	for _, id := range topics {
		says = append(says, lib.Tree(id).Title.S)
	}
	text := p.asWritten()
	for _, want := range says {
		if !strings.Contains(text, want) {
			t.Errorf("%s does not say %q: %s", name, want, text)
		}
	}
	for _, never := range []string{"Name:", "name:", "Print it", "Which topics"} {
		if strings.Contains(text, never) {
			t.Errorf("%s says %q", name, never)
		}
	}
}

// The longest address, and topics with the longest names there are, still have room: a card's last line is printed,
// and its type is not smaller.
func TestInvitationsAtTheirLongest(t *testing.T) {
	t.Parallel()
	at := "https://keelpath.alder-quay.example/" + strings.Repeat("feet-and-legs/", 4)
	at = at[:library.MaxAddress-1] + "/"
	dir := layered(t, map[string]string{"content/edition.yaml": "address: " + at + "\n"})
	b := newTab(t)
	b.open(sitetest.OnDisk(dir, invitePage))
	topics := []string{"motion-or-push", "sore-skin-sweat-and-rash", "heel-height", "water-and-weather"}
	for _, kind := range []string{"letter", "cards", "poster"} {
		b.pickForPrint(kind, topics...)
		p := b.print("Letter", "invitation-longest-"+kind)
		checkInvitation(t, p, kind, invitationTo(at, topics), topics)
		if kind == "cards" && strings.Count(p.asWritten(), "weekdays 8 to 4") != cardsOf(topics) {
			t.Errorf("a card's last line is cut off")
		}
		if kind == "cards" {
			b.checkCardType()
		}
	}
}

// A fifth topic is refused in words, the order is that of picking, and nothing is stored, asked for or put into the address.
func TestInvitationPicks(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	dir := layered(t, nil)
	b.open(sitetest.OnDisk(dir, invitePage))
	asked := len(b.requests())
	b.pickForPrint("letter", "work", "paying-for-it", "hills-and-ramps", "heel-height", "uneven-ground")
	got := eval[struct {
		Leads, Full string
		Checked     int
		Picked      []string
		Stored      int
		At          string
	}](b, `(() => { const slot = (s) => document.querySelector('#invite [data-slot="' + s + '"]'); return {
  Leads: slot("leads").textContent, Full: slot("full").hidden ? "" : slot("full").textContent,
  Checked: document.querySelectorAll("#invite input[type=checkbox]:checked").length,
  Picked: Array.from(document.querySelectorAll("#invite .letter li"), (li) => li.textContent),
  Stored: localStorage.length + sessionStorage.length + document.cookie.length, At: location.href }; })()`)
	if want := "https://keelpath.alder-quay.example/prepare/index.html#take=work,paying-for-it,hills-and-ramps,heel-height"; got.Leads != want {
		t.Errorf("it leads to %s, want %s", got.Leads, want)
	}
	if got.Checked != publish.MostInvited || !strings.Contains(got.Full, "as many as an invitation can hold") {
		t.Errorf("%d are checked, and the page says %q", got.Checked, got.Full)
	}
	if len(got.Picked) != 4 || got.Picked[0] != lib.Tree("work").Title.S {
		t.Errorf("picked are %q", got.Picked)
	}
	if got.Stored != 0 || strings.ContainsAny(got.At, "#?") {
		t.Errorf("%d things are stored, and the address is %s", got.Stored, got.At)
	}
	for _, file := range b.requests()[asked:] { // a weight of the typeface, maybe
		if !strings.HasPrefix(file, sitetest.OnDisk(dir, "assets/")) {
			t.Errorf("the page asks for %s", file)
		}
	}
	b.loadAxe()
	if wrong := b.axe().problems(); len(wrong) > 0 {
		t.Errorf("axe finds %q", wrong)
	}
	b.run(`document.querySelector('#invite input[value="work"]').click()`)
	if first := eval[string](b, `document.querySelector("#invite .letter li").textContent`); first != lib.Tree("paying-for-it").Title.S {
		t.Errorf("with the first one off, the list begins with %q", first)
	}
	// What a code leads to is in this very site.
	if u, err := url.Parse(got.Leads); err != nil || u.Fragment == "" {
		t.Error(err)
	} else if _, err := os.Stat(filepath.Join(dir, filepath.FromSlash(strings.TrimPrefix(u.Path, "/")))); err != nil {
		t.Error(err)
	}
}
