package drawing

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// What an amount changes is written at each part as data-is: a word and numbers. setTo does here what
// site/client/sums/moves.ts does in the reader's page.
//
//	turn K X Y      turns by K times the angle of the ratio, clockwise, about X, Y
//	drop K          moves down by K times the amount
//	grow Y          scales about 0, Y by the cube root of the amount in tens: a box of 20 kg has twice the content of one of 10 kg
//	arc K R         an arc of R about 0, 0 from upright on, K times the angle long
//	mix A B | a | b a path between a, where the amount is A, and b, where it is B; and beyond
//	says           the angle of the ratio, in whole degrees, as the text of the element
//
// A number behind the word, as in "turn.1", says which amount it is, where a drawing has several.
var isMove = regexp.MustCompile(` data-is="(\w+)(?:\.(\d))? ?([^"]*)"`)

var isSaid = regexp.MustCompile(`(data-is="says(?:\.(\d))?"[^>]*>)[^<]*<`)

func saidDegrees(ratio float64) string {
	return strconv.FormatFloat(math.Round(degrees(math.Atan(ratio))), 'f', 0, 64) + "°"
}

func setTo(body string, amounts ...float64) string {
	body = isSaid.ReplaceAllStringFunc(body, func(found string) string {
		m := isSaid.FindStringSubmatch(found)
		which, _ := strconv.Atoi(m[2])
		return m[1] + saidDegrees(amounts[which]) + "<"
	})
	return isMove.ReplaceAllStringFunc(body, func(found string) string {
		m := isMove.FindStringSubmatch(found)
		which, _ := strconv.Atoi(m[2])
		return found + moved(m[1], m[3], amounts[which])
	})
}

// moved is the attribute that a move gives at an amount.
func moved(word, args string, amount float64) string {
	if word == "mix" {
		return fmt.Sprintf(` d="%s"`, mixed(args, amount))
	}
	var k [3]float64
	for i, f := range strings.Fields(args) {
		if i < len(k) {
			k[i], _ = strconv.ParseFloat(f, 64)
		}
	}
	angle := math.Atan(amount)
	switch word {
	case "turn":
		return fmt.Sprintf(` transform="rotate(%s %s %s)"`, fine(k[0]*degrees(angle)), num(k[1]), num(k[2]))
	case "drop":
		return fmt.Sprintf(` transform="translate(0 %s)"`, fine(k[0]*amount))
	case "grow":
		s := math.Cbrt(amount / 10)
		return fmt.Sprintf(` transform="translate(0 %s) scale(%s)"`, fine(k[0]*(1-s)), fine(s))
	case "arc":
		a := k[0] * angle
		sweep := 1
		if a < 0 {
			sweep = 0
		}
		return fmt.Sprintf(` d="M0 %sA%s %s 0 0 %d %s %s"`, num(-k[1]), num(k[1]), num(k[1]), sweep, fine(k[1]*math.Sin(a)), fine(-k[1]*math.Cos(a)))
	}
	return ""
}

func fine(v float64) string { return rounded(v, 1000) }

var numberInPath = regexp.MustCompile(`-?\d+(?:\.\d+)?`)

// mixed is the path between two that differ in their numbers alone.
func mixed(args string, amount float64) string {
	parts := strings.Split(args, "|")
	ends := strings.Fields(parts[0])
	a, _ := strconv.ParseFloat(ends[0], 64)
	b, _ := strconv.ParseFloat(ends[1], 64)
	t := (amount - a) / (b - a)
	to := numberInPath.FindAllString(parts[2], -1)
	i := 0
	return numberInPath.ReplaceAllStringFunc(strings.TrimSpace(parts[1]), func(s string) string {
		x, _ := strconv.ParseFloat(s, 64)
		y, _ := strconv.ParseFloat(to[i], 64)
		i++
		return num(x + (y-x)*t)
	})
}

// move draws inside a group that an amount moves.
func (p *pencil) move(is string, draw func()) {
	fmt.Fprintf(&p.b, "<g data-is=\"%s\">", is)
	draw()
	p.b.WriteString("</g>")
}

// mix adds a path that is a where the amount is at and b where it is to.
func (p *pencil) mix(class string, at, to float64, a, b string) {
	fmt.Fprintf(&p.b, "<path class=\"%s\" data-is=\"mix %s %s|%s|%s\"/>", class, num(at), num(to), a, b)
}

// mixOf is mix for one of several amounts, named as in "1".
func (p *pencil) mixOf(class, which string, at, to float64, a, b string) {
	word := "mix"
	if which != "" {
		word += "." + which
	}
	fmt.Fprintf(&p.b, "<path class=\"%s\" data-is=\"%s %s %s|%s|%s\"/>", class, word, num(at), num(to), a, b)
}
