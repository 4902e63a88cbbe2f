package finding

import (
	"fmt"
	"strings"
)

// longestName is the most bytes of a name that Nearest looks at; an id has fewer.
const longestName = 100

// Nearest gives the one of names closest to wrong, or "" where none is close
// enough to be a likely slip: a third of the letters, rounded up, may differ,
// but never all of them.
func Nearest(wrong string, names []string) string {
	if len(wrong) > longestName {
		return ""
	}
	best, bestAt := "", min((len(wrong)+2)/3+1, len(wrong))
	for _, n := range names {
		if len(n) > longestName {
			continue
		}
		if d := distance(strings.ToLower(wrong), strings.ToLower(n), bestAt); d < bestAt {
			best, bestAt = n, d
		}
	}
	return best
}

// NearestHelp gives Nearest as a help line with the place of that name, or no
// line at all. at may be nil.
func NearestHelp(wrong string, names []string, at func(name string) Place) []string {
	n := Nearest(wrong, names)
	if n == "" {
		return nil
	}
	if at != nil {
		if p := at(n); p.Line > 0 {
			return []string{fmt.Sprintf("nearest: %q, %s", n, p)}
		}
	}
	return []string{fmt.Sprintf("nearest: %q", n)}
}

// NearestOrAll gives Nearest as a help line, or one that lists all names behind
// what they are: "drawings: a, b".
func NearestOrAll(wrong string, names []string, what string) []string {
	if help := NearestHelp(wrong, names, nil); help != nil {
		return help
	}
	return []string{what + ": " + strings.Join(names, ", ")}
}

// distance counts the single-letter changes (insert, drop, replace, swap of
// neighbours) from a to b, and stops counting above limit.
func distance(a, b string, limit int) int {
	ra, rb := []rune(a), []rune(b)
	if d := len(ra) - len(rb); d > limit || -d > limit {
		return limit + 1
	}
	before, prev, cur := make([]int, len(rb)+1), make([]int, len(rb)+1), make([]int, len(rb)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(ra); i++ {
		cur[0] = i
		least := cur[0]
		for j := 1; j <= len(rb); j++ {
			cost := 1
			if ra[i-1] == rb[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && ra[i-1] == rb[j-2] && ra[i-2] == rb[j-1] {
				cur[j] = min(cur[j], before[j-2]+1)
			}
			least = min(least, cur[j])
		}
		if least > limit+1 { // a swap may still save one, not more
			return limit + 1
		}
		before, prev, cur = prev, cur, before
	}
	return prev[len(rb)]
}
