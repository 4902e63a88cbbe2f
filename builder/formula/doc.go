// Package formula is the language of conditions and worked-out values in a
// tree: "steepness > 8.5*percent && knee != "unit"".
//
// It is Go's expression grammar, read by go/parser and cut down to comparisons,
// && || !, brackets, + - * /, numbers, texts for answers, names of questions and
// values, unit names, has(question, "answer") for questions with several
// answers, and the functions of package mechanics with min, max and abs. In a
// name a hyphen is written as an underscore.
//
// Every expression has a kind, and kinds do not mix: a length cannot be added
// to an angle. Amounts are in the canonical units of package quantity.
//
// # Unknown answers
//
// A question that was skipped, answered with "not sure" or not reached is
// unknown, and so is a value worked out from it, a division by zero, and what
// is no finite number. A comparison with an unknown is unknown. For the rest,
// T is true, F false and ? unknown (Kleene's strong logic):
//
//	a b | a && b | a || b | !a
//	T T |   T    |   T    |  F
//	T F |   F    |   T    |  F
//	T ? |   ?    |   T    |  F
//	F T |   F    |   T    |  T
//	F F |   F    |   F    |  T
//	F ? |   F    |   ?    |  T
//	? T |   ?    |   T    |  ?
//	? F |   F    |   ?    |  ?
//	? ? |   ?    |   ?    |  ?
//
// A route is taken only where its condition is true; unknown is not enough.
package formula
