package browsertest

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"testing"
)

// readmePicture is what README.md shows: the first page, and a sheet, side by side.
const readmePicture = "../../testdata/readme/home-and-sheet.png"

// The picture in README.md is of this program. KEELPATH_README=refresh takes it anew.
func TestReadmePicture(t *testing.T) {
	b := newTab(t)
	b.size(760, 900)
	b.open(onDisk("index.html"))
	home := b.pixels(box{Width: 760, Height: 900})
	b.openPlanner(onDisk)
	fillSheet(b)
	b.run(`window.scrollTo(0, 0)`)
	sheet := b.pixels(box{Width: 760, Height: 900})

	now := image.NewRGBA(image.Rect(0, 0, 2*760+20, 900))
	draw.Draw(now, now.Bounds(), image.NewUniform(color.Gray{0x77}), image.Point{}, draw.Src)
	draw.Draw(now, image.Rect(0, 0, 760, 900), home, home.Bounds().Min, draw.Src)
	draw.Draw(now, image.Rect(780, 0, 1540, 900), sheet, sheet.Bounds().Min, draw.Src)
	if os.Getenv("KEELPATH_README") == "refresh" {
		var out bytes.Buffer
		if err := png.Encode(&out, now); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(readmePicture, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	src, err := os.ReadFile(readmePicture)
	if err != nil {
		t.Fatal(err)
	}
	shown, err := png.Decode(bytes.NewReader(src))
	if err != nil {
		t.Fatal(err)
	}
	// Letters differ a little from one machine to the next; where text, boxes and pictures stand does not.
	if far := apart(shown, now); far > 0.03 {
		t.Errorf("README.md shows another page than there is now: %.3f apart; take it anew with KEELPATH_README=refresh", far)
	}
	if far := apart(shown, image.NewUniform(color.White)); far < 0.03 {
		t.Errorf("the picture is as good as empty: %.3f from white", far)
	}
}

// apart tells how far two pictures are from each other: the mean difference in brightness of
// squares of 20 pixels, from 0 to 1.
func apart(a, b image.Image) float64 {
	const square = 20
	var sum, n float64
	at := a.Bounds()
	for y := at.Min.Y; y+square <= at.Max.Y; y += square {
		for x := at.Min.X; x+square <= at.Max.X; x += square {
			sum += math.Abs(brightness(a, x, y, square) - brightness(b, x, y, square))
			n++
		}
	}
	return sum / n
}

func brightness(m image.Image, x, y, square int) float64 {
	var sum float64
	for i := range square * square {
		sum += float64(color.Gray16Model.Convert(m.At(x+i%square, y+i/square)).(color.Gray16).Y)
	}
	return sum / float64(square*square) / 0xffff
}
