// What builder/exchange gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

export interface Form {
  questionnaire: string;
  system: string;
  nest?: { [key: string]: number };
  split?: { [key: string]: Split[] };
}

export interface Split {
  by: string;
  asked?: string[];
  class?: { [key: string]: number };
}
