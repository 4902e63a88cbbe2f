// Command mutants changes the program in small ways, one at a time, and tells
// which changes the fast tests of the changed package do not notice.
//
//	go run ./builder/internal/mutants [-n 60] [-seed 1] [TARGET...]
//
// A mutant is one change by one of the operators below. Of all that a target
// has, so many are drawn with the seed; one that does not compile is counted and
// another is drawn for it. A mutant is killed if a test fails, or if the tests go
// on without end. One that survives must stand in equivalents.txt with the reason
// why no test can see it; any other is printed, and the command fails. It also
// fails where fewer than 90 of 100 are killed.
//
// Operators for Go, on its syntax tree:
//
//	negate        the condition of an if or a for is turned round
//	compare       < and <=, > and >=, == and != change places
//	one-more      a whole number is one larger
//	drop          a call or an assignment is left out
//	logic         && and || change places
//	zero          a function returns nothing but zero values
//	empty-if      the body of an if is empty
//	empty-case    the body of a case is empty
//	arithmetic    + and -, * and / change places
//	jump          break and continue change places
//	not           a ! is left out
//	truth         true and false change places
//
// Operators for TypeScript, on its tokens: negate (an if), compare, one-more,
// drop (a line that is one call or assignment), logic, arithmetic, not, truth,
// and zero (a return of a value returns none).
package main
