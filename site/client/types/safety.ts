// What builder/safety gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

export interface Table {
  leg: { [key: string]: string[] };
  groups: TableGroup[];
}

export interface TableGroup {
  id: string;
  leg?: boolean;
  prompts?: string[];
  signs: TableSign[];
}

export interface TableSign {
  id: string;
  when: When;
  leg?: boolean;
  prompts?: string[];
  tells?: string[];
}

export type When = "now" | "crisis" | "today" | "soon";
