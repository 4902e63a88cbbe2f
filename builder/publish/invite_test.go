package publish

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/library"
	"keelpath/builder/squarecode"
)

const inviteName = "clinic/invite.html"

// An edition that knows its address shows each topic's, with its code, without any script; one that does not
// says what to do and names the files for a stick.
func TestInvitations(t *testing.T) {
	bare := pageNamed(t, builtin(t), inviteName)
	if text := textOf(bare); !strings.Contains(text, "address: https://feet.example.org/") || !strings.Contains(text, "start/ hills-and-ramps.html") {
		t.Errorf("without an address the page does not say what to do: %s", text)
	}
	if n := len(elements(bare, "svg")); n > 0 || len(elements(bare, "form")) > 0 {
		t.Errorf("without an address there are %d codes, and something to press", n)
	}

	const at = "https://feet.example.org/a/"
	v := makerWith(t, load(t, map[string]string{"content/edition.yaml": "address: " + strings.TrimSuffix(at, "/") + "\n"}))
	page, ok := v.plan.Named(inviteName)
	if !ok {
		t.Fatal("no page")
	}
	data, _, err := v.html(page)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append([]string{""}, patientNames(v.lib)...) {
		code, err := squarecode.Of(at + "start/" + name)
		if err != nil {
			t.Fatal(err)
		}
		typed := "<span>feet.example.org/</span><span>a/</span><span>start/</span><span>" + name
		if !strings.Contains(string(data), `d="`+code.Path()+`"`) || !strings.Contains(string(data), typed) {
			t.Errorf("the page has no code of start/%s, or no address", name)
		}
	}
	if hostedAt(library.Edition{Address: v.lib.Edition.Address}, "es") != at+"es/" || hostedAt(library.Edition{}, "es") != "" {
		t.Error("another language's pages are not in its folder")
	}
}

func patientNames(l *library.Library) []string {
	var out []string
	for _, tr := range l.PatientTrees() {
		out = append(out, tr.ID.S+".html")
	}
	return out
}

// Build and page put together the same addresses, and agree on how many topics there are at most.
func TestInvitedAlike(t *testing.T) {
	page := clienttest.Load(t, "invite/address.ts")
	for topics, want := range map[string]string{`[]`: "start/", `["work"]`: "start/work.html", `["work", "hills"]`: "prepare/index.html#take=work,hills"} {
		var got string
		if err := page.Run(fmt.Sprintf(`script.invitation("https://a.example/", %s)`, topics), &got); err != nil || got != "https://a.example/"+want {
			t.Errorf("%s is at %q (%v), want %q", topics, got, err, want)
		}
	}
	script, err := os.ReadFile("../../site/client/invite/address.ts")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(script), fmt.Sprintf("MOST_TOPICS = %d;", MostInvited)) {
		t.Errorf("the client takes another number of topics than %d", MostInvited)
	}
}
