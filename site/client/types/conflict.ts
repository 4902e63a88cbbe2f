// What builder/conflict gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

export interface Summary {
  none: string;
  one: string;
  clear: string;
  lean: string;
  open: string;
  found: string[];
  full: string;
}
