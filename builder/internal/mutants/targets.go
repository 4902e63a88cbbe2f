package main

// target is what is changed, and which tests must notice.
type target struct {
	name    string
	sources []string // patterns below the root
	tests   []string // packages with the tests
	skip    string   // tests of these that are left out, as they are slow
}

var targets = []target{
	{"conflict", []string{"builder/conflict/*.go"}, []string{"./builder/conflict"}, ""},
	{"safety", []string{"builder/safety/*.go", "builder/library/safety*.go"}, []string{"./builder/safety", "./builder/library"}, ""},
	{"quantity", []string{"builder/quantity/*.go"}, []string{"./builder/quantity"}, ""},
	{"sheetcode", []string{"builder/sheetcode/*.go"}, []string{"./builder/sheetcode"}, ""},
	{"tree", []string{"builder/tree/*.go"}, []string{"./builder/tree"}, ""},
	{"formula", []string{"builder/formula/*.go"}, []string{"./builder/formula"}, "^(TestFunctionsAgree|TestGoAndClientAgree)$"},
	{"proof", []string{"builder/proof/*.go"}, []string{"./builder/proof"}, "^(TestWalkersAgree.*|TestOutOfReach)$"},
	{"folder", []string{"builder/folder/*.go"}, []string{"./builder/folder"}, ""},
	{"compose", []string{"site/client/compose.ts"}, []string{"./builder/clienttest"}, ""},
	{"state", []string{"site/client/state.ts"}, []string{"./builder/clienttest"}, ""},
	{"question", []string{"site/client/question.ts"}, []string{"./builder/clienttest"}, ""},
}
