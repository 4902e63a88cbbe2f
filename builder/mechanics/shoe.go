package mechanics

// There is no perfect conversion between shoe sizes and foot length: makers
// differ, and published pages differ by up to a full size for one foot. Ask for
// a measured length; show these sums only as "roughly", with their spread.
// Source: shoe-size-standard-2015, shoe-size-page-chart.

// Steps between sizes, in mm.
const (
	// ParisPoint is the European step: two thirds of a centimeter.
	// Source: shoe-size-standard-2015.
	ParisPoint = 20.0 / 3

	// Barleycorn is the UK and US step: a third of an inch.
	// Source: shoe-size-page-inches, shoe-size-page-steps.
	Barleycorn = 25.4 / 3

	// LastPoints is by how many steps a last is longer than the foot.
	// Source: shoe-size-reference-page.
	LastPoints = 2

	// LastRoom is the other rule in use: the last is 15 mm longer.
	// Source: shoe-size-reference-page, shoe-size-page-allowance.
	LastRoom = 15
)

// How far a size or a length may be off. Our own rule, from the differences
// between published pages; see shoe-size-page-chart.
const (
	SizeSpread = 1  // sizes, up and down
	FootSpread = 10 // mm, up and down
)

// Where the counting of the inch sizes starts: size = last in barleycorns minus
// this.
const (
	zeroUK    = 25   // Source: shoe-size-page-inches.
	zeroMen   = 24   // Source: shoe-size-page-inches, shoe-size-page-allowance.
	zeroWomen = 22.5 // Source: shoe-size-page-inches.
	// nearWomen is the other rule for women, US men's size + 1.
	// Source: shoe-size-page-allowance.
	nearWomen = 23
)

// Range is an estimate with its spread.
type Range struct{ Low, Usual, High float64 }

func around(low, usual, high, spread float64) Range {
	return Range{Low: low - spread, Usual: usual, High: high + spread}
}

// EUSize gives the European size of a last that is room mm longer than a foot.
//
//	EU = (foot + room) / (20/3)
//
// Source: shoe-size-standard-2015 for the step.
func EUSize(foot, room float64) float64 {
	if negative(foot) {
		return none
	}
	return (foot + room) * 3 / 20
}

// ShoeEU gives the rough European size for a foot in mm.
//
//	EU = 0.15 x foot + 2, a last two points longer; one size up and down
//
// With a last 15 mm longer it is 0.15 x foot + 2.25, which the spread covers.
// Source: shoe-size-page-two-points, shoe-size-page-allowance,
// shoe-size-page-europe.
func ShoeEU(foot float64) Range {
	size := EUSize(foot, LastPoints*ParisPoint)
	return around(size, size, size, SizeSpread)
}

// ShoeUK gives the rough UK size for a foot in mm.
//
//	UK = foot / (25.4/3) + 2 - 25; one size up and down
//
// Source: shoe-size-page-inches for the 25; a last two points longer,
// shoe-size-reference-page.
func ShoeUK(foot float64) Range {
	size := inchSize(foot, zeroUK)
	return around(size, size, size, SizeSpread)
}

// ShoeUSMen gives the rough US men's size for a foot in mm.
//
//	US men = foot / (25.4/3) + 2 - 24; one size up and down
//
// Source: shoe-size-page-inches, shoe-size-page-allowance.
func ShoeUSMen(foot float64) Range {
	size := inchSize(foot, zeroMen)
	return around(size, size, size, SizeSpread)
}

// ShoeUSWomen gives the rough US women's size for a foot in mm. Two rules are in
// use: men's size + 1.5, which is shown, and men's size + 1.
//
//	US women = foot / (25.4/3) + 2 - 22.5
//	from one size below + 2 - 23, to one size above
//
// Source: shoe-size-page-inches, shoe-size-page-allowance.
func ShoeUSWomen(foot float64) Range {
	size := inchSize(foot, zeroWomen)
	return around(inchSize(foot, nearWomen), size, size, SizeSpread)
}

func inchSize(foot, zero float64) float64 {
	if negative(foot) {
		return none
	}
	return foot*3/25.4 + LastPoints - zero
}

// FootEU gives the rough foot length in mm for a European size: the inverse of
// [ShoeEU], 10 mm up and down.
//
//	foot = (EU - 2) x 20/3
//
// Source: as for ShoeEU.
func FootEU(size float64) Range {
	foot := length((size - LastPoints) * 20 / 3)
	return around(foot, foot, foot, FootSpread)
}

// FootUK gives the rough foot length in mm for a UK size: the inverse of
// [ShoeUK], 10 mm up and down.
//
//	foot = (UK + 25 - 2) x 25.4/3
//
// Source: as for ShoeUK.
func FootUK(size float64) Range {
	foot := inchFoot(size, zeroUK)
	return around(foot, foot, foot, FootSpread)
}

// FootUSMen gives the rough foot length in mm for a US men's size: the inverse
// of [ShoeUSMen], 10 mm up and down.
//
//	foot = (US men + 24 - 2) x 25.4/3
//
// Source: as for ShoeUSMen.
func FootUSMen(size float64) Range {
	foot := inchFoot(size, zeroMen)
	return around(foot, foot, foot, FootSpread)
}

// FootUSWomen gives the rough foot length in mm for a US women's size: the
// inverse of [ShoeUSWomen]. Its two rules are half a size apart.
//
//	foot = (US women + 22.5 - 2) x 25.4/3
//	from 10 mm below, to 10 mm above the same with 23
//
// Source: as for ShoeUSWomen.
func FootUSWomen(size float64) Range {
	foot := inchFoot(size, zeroWomen)
	return around(foot, foot, inchFoot(size, nearWomen), FootSpread)
}

func inchFoot(size, zero float64) float64 { return length((size + zero - LastPoints) * 25.4 / 3) }

// length refuses what no foot can have.
func length(mm float64) float64 {
	if negative(mm) {
		return none
	}
	return mm
}
