package formula

import (
	"keelpath/builder/mechanics"
	"keelpath/builder/quantity"
)

const (
	length = Kind(quantity.Length)
	mass   = Kind(quantity.Mass)
	angle  = Kind(quantity.Angle)
	slope  = Kind(quantity.Slope)
)

// function is what a formula may call. With more, the last parameter may be
// repeated. says is for an author who called it wrongly.
type function struct {
	params []Kind
	more   bool
	result Kind
	call   func([]float64) float64
	says   string
}

func one(from, result Kind, f func(float64) float64, says string) function {
	return function{[]Kind{from}, false, result, func(a []float64) float64 { return f(a[0]) }, says}
}

func two(a, b, result Kind, f func(float64, float64) float64, says string) function {
	return function{[]Kind{a, b}, false, result, func(a []float64) float64 { return f(a[0], a[1]) }, says}
}

// functions are the sums of package mechanics that formulas may use. The
// client has the same names in site/client/sums/mechanics.ts.
var functions = map[string]function{
	"effective_heel": two(length, length, length, mechanics.EffectiveHeel, "effective_heel(heel, ball): sole under the heel less sole under the ball"),
	"heel_change":    two(length, length, length, mechanics.HeelChange, "heel_change(new, usual): how much higher the new heel is"),
	"long_lever":     one(length, length, mechanics.LongLever, "long_lever(foot length): heel to ball at its longest"),
	"short_lever":    one(length, length, mechanics.ShortLever, "short_lever(foot length): heel to ball at its shortest"),
	"tilt":           two(length, length, angle, mechanics.Tilt, "tilt(heel change, lever): how far the shin tips"),
	"least_tilt":     two(length, length, angle, mechanics.LeastTilt, "least_tilt(heel change, foot length): the least the shin tips"),
	"most_tilt":      two(length, length, angle, mechanics.MostTilt, "most_tilt(heel change, foot length): the most the shin tips"),
	"knee_shift":     two(angle, length, length, mechanics.KneeShift, "knee_shift(tilt, knee height): how far the knee moves"),
	"heel_wedge":     one(length, length, mechanics.HeelWedge, "heel_wedge(heel change): what a lower shoe lacks under the heel"),
	"ball_wedge":     one(length, length, mechanics.BallWedge, "ball_wedge(heel change): what a higher shoe lacks under the ball"),

	"slope_percent": one(slope, Number, mechanics.SlopePercent, "slope_percent(slope): the slope in percent"),
	"percent_slope": one(Number, slope, mechanics.PercentSlope, "percent_slope(number): the slope of so many percent"),
	"slope_angle":   one(slope, angle, mechanics.SlopeAngle, "slope_angle(slope): how steep a slope is, in degrees"),
	"angle_slope":   one(angle, slope, mechanics.AngleSlope, "angle_slope(angle): the slope of an angle"),
	"sine":          one(angle, Number, mechanics.Sine, "sine(angle): how far across a line of length 1 leans"),
	"slope_n":       one(slope, Number, mechanics.SlopeN, "slope_n(slope): the n of a slope written 1:n"),
	"one_in":        one(Number, slope, mechanics.OneIn, "one_in(number): the slope 1:n"),
	"ankle_needed":  one(slope, angle, mechanics.AnkleNeeded, "ankle_needed(slope): degrees the ankle must give to stand foot-flat"),
	"heel_felt":     two(slope, length, length, mechanics.HeelFelt, "heel_felt(slope, lever): the heel height that a slope feels like"),
	"slope_of":      two(length, length, slope, mechanics.SlopeOf, "slope_of(rise, run): the slope that rises so far over a level run"),
	"ramp_rise":     two(slope, length, length, mechanics.RampRise, "ramp_rise(slope, run): how far a ramp rises"),
	"ramp_run":      two(length, slope, length, mechanics.RampRun, "ramp_run(rise, slope): how much room a ramp takes"),

	"ball_length":       one(length, length, mechanics.BallLength, "ball_length(foot length): from the heel to the ball of the foot"),
	"foot_from_stature": one(length, length, mechanics.FootFromStature, "foot_from_stature(stature): a rough foot length"),
	"foot_size":         one(length, length, mechanics.FootSize, "foot_size(inside of the shoe): whole centimeters, rounded down"),
	"foot_size_pointed": one(length, length, mechanics.FootSizePointed, "foot_size_pointed(inside of the shoe): the same for a very pointed shoe"),
	"load": {[]Kind{mass}, true, mass, func(a []float64) float64 { return mechanics.Load(a[0], a[1:]...) },
		"load(body, carried...): the load to mention"},

	"ankle_foot_radius":      one(length, length, mechanics.AnkleFootRadius, "ankle_foot_radius(stature): the rocker of ankle and foot"),
	"knee_ankle_foot_radius": one(length, length, mechanics.KneeAnkleFootRadius, "knee_ankle_foot_radius(stature): the rocker of knee, ankle and foot"),
}

// Shoe sizes and foot lengths are rough: each has its two ends beside it, as in
// shoe_eu_low and shoe_eu_high.
func init() {
	addRange("shoe_eu", length, Number, mechanics.ShoeEU, "(foot length): a rough European size")
	addRange("shoe_uk", length, Number, mechanics.ShoeUK, "(foot length): a rough UK size")
	addRange("shoe_us_men", length, Number, mechanics.ShoeUSMen, "(foot length): a rough US men's size")
	addRange("shoe_us_women", length, Number, mechanics.ShoeUSWomen, "(foot length): a rough US women's size")
	addRange("foot_eu", Number, length, mechanics.FootEU, "(European size): a rough foot length")
	addRange("foot_uk", Number, length, mechanics.FootUK, "(UK size): a rough foot length")
	addRange("foot_us_men", Number, length, mechanics.FootUSMen, "(US men's size): a rough foot length")
	addRange("foot_us_women", Number, length, mechanics.FootUSWomen, "(US women's size): a rough foot length")
}

func addRange(name string, from, result Kind, f func(float64) mechanics.Range, says string) {
	functions[name+"_low"] = one(from, result, func(x float64) float64 { return f(x).Low }, name+"_low"+says+", the low end")
	functions[name] = one(from, result, func(x float64) float64 { return f(x).Usual }, name+says)
	functions[name+"_high"] = one(from, result, func(x float64) float64 { return f(x).High }, name+"_high"+says+", the high end")
}
