package firefoxtest

import (
	"image/png"
	"path/filepath"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	multi "github.com/makiuchi-d/gozxing/multi/qrcode"

	"keelpath/builder/internal/sitetest"
)

// Invitations print from Firefox too: one sheet, whose codes a decoder that is not ours reads.
func TestInvitationsPrinted(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	if _, err := sitetest.Build(t.Context(), dir, filepath.Join("..", "..", "testdata", "layers", "alder-quay")); err != nil {
		t.Fatal(err)
	}
	b := newTab(t)
	b.open(sitetest.OnDisk(dir, "clinic/invite.html"))
	b.run(`for (const id of ["work", "heel-height"]) document.querySelector('#invite input[value="' + id + '"]').click()`)
	for kind, codes := range map[string]int{"letter": 1, "cards": 8, "poster": 1} {
		b.run(`document.querySelector('#invite input[value="' + arguments[0] + '"]').click()`, kind)
		p := b.print()
		if p.Pages != "1" || !strings.Contains(p.Text, "does not pick a foot") {
			t.Errorf("%s: %s sheets: %s", kind, p.Pages, p.Text)
		}
		img, err := png.Decode(strings.NewReader(b.command("pdftoppm", "-r", "300", "-gray", "-png", "-singlefile", p.file)))
		if err != nil {
			t.Fatal(err)
		}
		bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
		if err != nil {
			t.Fatal(err)
		}
		read, err := multi.NewQRCodeMultiReader().DecodeMultiple(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true})
		if err != nil || len(read) != codes {
			t.Errorf("%s: %d codes are read, want %d (%v)", kind, len(read), codes, err)
		}
		for _, r := range read {
			if want := "https://keelpath.alder-quay.example/prepare/index.html#take=work,heel-height"; r.GetText() != want {
				t.Errorf("%s: a code says %q, want %q", kind, r.GetText(), want)
			}
		}
	}
}
