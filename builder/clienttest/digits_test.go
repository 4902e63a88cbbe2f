package clienttest_test

import (
	"strings"
	"testing"

	"keelpath/builder/clienttest"
)

// What the script counts stands in the digits of the language.
func TestCountsInOtherDigits(t *testing.T) {
	bundled := clienttest.Bundle(t, "words/words.ts")
	const ten = `"0123456789"`
	if !strings.Contains(bundled, ten) {
		t.Fatal("the script has no digits to be written otherwise")
	}
	page := clienttest.Run(t, "words/words.ts", strings.Replace(bundled, ten, `"٠١٢٣٤٥٦٧٨٩"`, 1))
	for code, want := range map[string]string{
		`script.remaining(12)`: "١٢", `script.used(1, 3)`: "٣", `script.more(20)`: "٢٠", `script.clearsIn(30)`: "٣٠", `script.tooLongBy(105, 600)`: "١٠٥",
		`script.made(new Date(2026, 10, 25))`: "٢٠٢٦", `script.digits("8°")`: "٨°",
	} {
		var got string
		if err := page.Run(code, &got); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(got, want) || strings.ContainsAny(got, "0123456789") {
			t.Errorf("%s says %q", code, got)
		}
	}
}
