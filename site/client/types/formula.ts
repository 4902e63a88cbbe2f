// What builder/formula gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

export type Coded = number | boolean | string | [string, ...Coded[]];
