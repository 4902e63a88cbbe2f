// Package mechanics holds the sums behind the calculators and the formulas of
// trees: heel and tilt, slopes and ramps, foot and shoe length, load. Its
// results are estimates to talk about with a prosthetist, never a choice.
//
// # Units
//
// Lengths are in mm, masses in kg, angles in degrees, slopes as rise over run
// (0.14 is 14 %). Shoe sizes and counts are plain numbers.
//
// # Signs
//
// Uphill is +. Toes up (dorsiflexion) is +, toes down (plantarflexion) is -. A
// heel change is + where the new shoe's heel is higher; then the shin tips
// forward (+) and the knee is pushed forward (+), towards bending.
//
// # Outside the domain
//
// Where an input makes no sense (a foot of -3 mm, a lever of nothing) and where
// there is no answer (level ground written as 1:n), a function gives NaN. It
// never gives an infinity for finite inputs of everyday size.
//
// # Sources
//
// A line "Source:" names entries of content/sources.yaml. "Mathematics" means
// that the value follows from the model which the comment states. A share or a
// bound that no published source gives says "assumption".
//
// site/client/sums/mechanics.ts computes the same; builder/formula keeps the table
// of names and its tests run both over the same inputs.
package mechanics

import "math"

var none = math.NaN()

// negative reports whether one of the inputs is below nothing, or no number.
func negative(inputs ...float64) bool {
	for _, x := range inputs {
		if !(x >= 0) {
			return true
		}
	}
	return false
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
