package library

import (
	"fmt"
	"regexp"
	"strings"

	"keelpath/builder/read"
)

// AddressForm is the address of a hosted copy: the host's name in small letters, a port if need be, and
// folders of plain letters. It is printed, typed by hand and put into a square code with more
// behind it, so there is no place in it for anything else. Names in other scripts are written in punycode (RFC 3492).
const AddressForm = `^https://([a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z]([a-z0-9-]{0,61}[a-z0-9])?(:[1-9][0-9]{0,4})?(/[A-Za-z0-9_~-]+)*/?$`

// MaxAddress keeps codes small: with four topics behind it, an address of so many signs has room in a
// code of 57 modules, which a card can show large enough.
const MaxAddress = 80

var addressForm = regexp.MustCompile(AddressForm)

// address reads where the edition is on the web. An empty one says that it is nowhere.
func (l *loader) address(t read.Text) {
	if !t.Given() {
		return
	}
	l.Edition.Address = t
	if fault, help := addressFault(t.S); fault != "" {
		l.list.Add(t.At, "not-allowed", fmt.Sprintf("the edition's address %q %s", t.S, fault), help)
		l.Edition.Address.S = ""
	}
}

// addressFault says what is wrong with an address; "" where nothing is.
func addressFault(s string) (fault, help string) {
	beyond := strings.IndexFunc(s, func(r rune) bool { return r <= ' ' || r > '~' })
	switch {
	case s == "":
		return "", ""
	case !strings.HasPrefix(s, "https://"):
		return `does not begin with "https://"`, "give the address of a copy that is served over https"
	case beyond >= 0:
		return fmt.Sprintf("has %q, which is no sign of plain ASCII", []rune(s[beyond:])[0]), `write a host's name in another script in punycode: "xn--...", and folders in plain letters`
	case strings.Contains(s, "@"):
		return "names a user", `leave out what stands before "@": it would be printed for all to see`
	case strings.Contains(s, "?"):
		return "has a query", `leave out "?" and what follows`
	case strings.Contains(s, "#"):
		return `has a part behind "#"`, `leave out "#" and what follows: the topics go there`
	case len(s) > MaxAddress:
		return fmt.Sprintf("has %d signs, and %d are the most", len(s), MaxAddress), "host it at a shorter address, so that it can be typed and its code is small enough for a card"
	case strings.HasSuffix(s, ".html"):
		return "is that of a file", "give the folder in which the site's index.html lies"
	case !addressForm.MatchString(s):
		return "is not that of a folder on a host", `write "https://", the host's name in small letters, and folders of letters, digits, "-", "_" and "~": https://feet.example.org/questions/`
	}
	return "", ""
}
