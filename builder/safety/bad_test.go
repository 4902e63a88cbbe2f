package safety_test

import (
	"fmt"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/internal/screenfaults"
	"keelpath/builder/safety"
)

// Each fault of a screen is found, in its words, on the line that it is on, and
// is the only one that is found. Without a fault there is nothing to find.
func TestFaults(t *testing.T) {
	screen, err := screenfaults.Screen("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range screenfaults.All() {
		t.Run(c.Name, func(t *testing.T) {
			text, err := c.In(screen)
			if err != nil {
				t.Fatal(err)
			}
			var list finding.List
			if safety.Parse("trees/safety.yaml", []byte(text), &list) == nil {
				t.Fatal("no screen")
			}
			found := list.Sorted()
			var all []string
			for _, f := range found {
				all = append(all, fmt.Sprintf("%s %s: %s %q", f.Place, f.Check, f.Text, f.Help))
			}
			if c.Check == "" {
				if len(found) > 0 {
					t.Errorf("it is found that %s", strings.Join(all, "\n"))
				}
				return
			}
			if len(found) != 1 || found[0].Check != c.Check || !strings.Contains(found[0].Text, c.Says) || len(found[0].Help) == 0 {
				t.Fatalf("%s with %q was expected, and found was\n%s", c.Check, c.Says, strings.Join(all, "\n"))
			}
			if line := strings.Split(text, "\n")[found[0].Line-1]; !strings.Contains(line, c.At) {
				t.Errorf("it is said of the line %q, and %q was expected on it", line, c.At)
			}
		})
	}
}
