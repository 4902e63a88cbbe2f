package main

// target is what is changed, and which tests must notice.
//
// All tests of its packages count, but for those that skip names, on one of three
// grounds: they take long, most of it in the client's
// script (sheetcode: TestRoundTrip, TestTwin; quantity:
// TestBrowserReadsTheSame; formula; proof: TestWalkers, TestOutOfReach) or in the
// shipped trees (proof); they look at the clock or at memory, and fail on a busy
// machine whatever the code does (proof: TestProofOfALargeTree,
// TestValuesThatUseValues); or they hold another package's work (proof:
// TestChangesA, which is tree's). Of library only the tests of the seal alone are run:
// the others prove every tree anew for each tamper.
type target struct {
	name    string
	sources []string // patterns below the root
	tests   []string // packages with the tests
	skip    string   // tests of these that are left out, as they are slow or look at the clock
	run     string   // the tests that are run alone; all where it is empty
}

var targets = []target{
	{name: "conflict", sources: []string{"builder/conflict/*.go"}, tests: []string{"./builder/conflict"}},
	{name: "safety", sources: []string{"builder/safety/*.go"}, tests: []string{"./builder/safety"}},
	{name: "seal", sources: []string{"builder/library/seal*.go", "builder/library/ways.go"}, tests: []string{"./builder/library"}, run: "SealAlone"},
	{name: "quantity", sources: []string{"builder/quantity/*.go"}, tests: []string{"./builder/quantity"}, skip: "^TestBrowserReadsTheSame$"},
	{name: "sheetcode", sources: []string{"builder/sheetcode/*.go"}, tests: []string{"./builder/sheetcode"}, skip: "^(TestRoundTrip|TestTwin)$"},
	{name: "tree", sources: []string{"builder/tree/*.go"}, tests: []string{"./builder/tree"}},
	{name: "formula", sources: []string{"builder/formula/*.go"}, tests: []string{"./builder/formula"}, skip: "^(TestFunctionsAgree|TestGoAndClientAgree)$"},
	{name: "proof", sources: []string{"builder/proof/*.go"}, tests: []string{"./builder/proof"}, skip: "^(TestWalkers.*|TestChangesA.*|Test.*ShippedTrees.*|TestOutOfReach|TestProofOfALargeTree|TestValuesThatUseValues)$"},
	{name: "folder", sources: []string{"builder/folder/*.go"}, tests: []string{"./builder/folder"}},
	{name: "compose", sources: []string{"site/client/sheet/compose.ts"}, tests: []string{"./builder/clienttest"}},
	{name: "state", sources: []string{"site/client/state/state.ts"}, tests: []string{"./builder/clienttest"}},
	// What question.ts does beside these needs a page, and is tested in browsers.
	{name: "question", sources: []string{"site/client/state/steps.ts", "site/client/tree/steps.ts"}, tests: []string{"./builder/clienttest"}},
}
