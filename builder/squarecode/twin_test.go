package squarecode

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	decoder "github.com/makiuchi-d/gozxing/qrcode"

	"keelpath/builder/clienttest"
)

// addresses are some of many lengths and of every kind of sign: of each version the longest and the shortest, and
// some between.
func addresses() []string {
	out := []string{
		"https://keelpath.alder-quay.example/start/",
		"https://keelpath.alder-quay.example/start/hills-and-ramps.html",
		"https://keelpath.alder-quay.example/prepare/index.html#take=hills-and-ramps,heel-height",
		strings.Repeat("0", 40), strings.Repeat("A", 60), strings.Repeat("~", 213),
	}
	r := rand.New(rand.NewPCG(1, 2))
	const signs = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/#=,:%"
	ends := []int{14, 26, 42, 62, 84, 106, 122, 152, 180, Most}
	var lengths []int
	for _, end := range ends {
		lengths = append(lengths, end-6, end-1, end, end+1)
	}
	for _, n := range lengths[:len(lengths)-1] {
		var b bytes.Buffer
		for range n {
			b.WriteByte(signs[r.IntN(len(signs))])
		}
		out = append(out, b.String())
	}
	return out
}

// The client's own encoder and a library that is not ours (github.com/boombuler/barcode) make the same
// code of every address, module by module, in all ten versions and with most masks.
func TestTwins(t *testing.T) {
	page := clienttest.Load(t, "invite/square.ts")
	sizes := map[int]bool{}
	for _, a := range addresses() {
		want, err := Of(a)
		if err != nil {
			t.Fatal(err)
		}
		sizes[want.Size()] = true
		text, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Rows [][]bool
			Path string
			Side int
		}
		if err := page.Run(fmt.Sprintf(`(() => { const c = script.square(%s); return { Rows: c, Path: script.path(c), Side: script.side(c) }; })()`, text), &got); err != nil {
			t.Fatal(err)
		}
		if len(got.Rows) != want.Size() || got.Side != want.Side() {
			t.Fatalf("%q has %d modules, want %d", a, len(got.Rows), want.Size())
		}
		wrong := 0
		for y, row := range got.Rows {
			for x, dark := range row {
				if dark != want.Dark(x, y) {
					wrong++
				}
			}
		}
		if wrong > 0 || got.Path != want.Path() {
			t.Fatalf("%q: %d of %d modules differ", a, wrong, want.Size()*want.Size())
		}
	}
	if len(sizes) != 10 {
		t.Errorf("codes of %d sizes were tried, want ten: %v", len(sizes), sizes)
	}
	var none bool
	if err := page.Run(fmt.Sprintf(`script.square("x".repeat(%d)) === undefined`, Most+1), &none); err != nil || !none {
		t.Errorf("what is too long has a code all the same (%v)", err)
	}
}

// picture shows a code with its quiet zone, so many dots a module.
func picture(c Code, dots int) image.Image {
	out := image.NewGray(image.Rect(0, 0, c.Side()*dots, c.Side()*dots))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			i, j := x/dots-Quiet, y/dots-Quiet
			out.SetGray(x, y, color.Gray{255})
			if i >= 0 && j >= 0 && i < c.Size() && j < c.Size() && c.Dark(i, j) {
				out.SetGray(x, y, color.Gray{0})
			}
		}
	}
	return out
}

// read is what a decoder that is not ours reads (github.com/makiuchi-d/gozxing).
func read(t *testing.T, c Code) (string, error) {
	t.Helper()
	bitmap, err := gozxing.NewBinaryBitmapFromImage(picture(c, 4))
	if err != nil {
		t.Fatal(err)
	}
	got, err := decoder.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true})
	if err != nil {
		return "", err
	}
	return got.GetText(), nil
}

func TestRead(t *testing.T) {
	for _, a := range addresses() {
		c, err := Of(a)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := read(t, c); err != nil || got != a {
			t.Errorf("%q is read as %q (%v)", a, got, err)
		}
	}
	// A code with a third of it turned over is not read: the decoder looks.
	c, err := Of(addresses()[1])
	if err != nil {
		t.Fatal(err)
	}
	for y := 10; y < 22; y++ {
		for x := range c.rows[y] {
			c.rows[y][x] = !c.rows[y][x]
		}
	}
	if got, err := read(t, c); err == nil {
		t.Errorf("a spoilt code is read as %q", got)
	}
}

func TestRefused(t *testing.T) {
	for _, bad := range []string{"https://example.org/\u00f1", "https://example.org/a b", "https://example.org/\x00", strings.Repeat("x", Most+1)} {
		if _, err := Of(bad); err == nil {
			t.Errorf("%.40q has a code", bad)
		}
	}
}
