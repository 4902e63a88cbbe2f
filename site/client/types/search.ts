// What builder/search gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)
// from the structs there, which say what each field is.

export interface First {
  words: string;
  skip: string;
  lines: number[];
  counted: string;
  pages: string[];
  counts: number[];
  topics?: Topic[];
  leads?: ([number, number])[];
  means?: MeansCoded[];
  parts: Part[];
}

export interface MeansCoded {
  says: number[];
  means: number[];
}

export interface Part {
  from: number;
  file: string;
}

export interface SignSaid {
  id: string;
  says: number[][][];
}

export interface SignsSaid {
  words: string;
  signs: SignSaid[];
}

export interface Text {
  title: string;
  units: UnitText[];
}

export interface Topic {
  unit: number;
  id: string;
}

export interface UnitText {
  at?: string;
  heading?: string;
  paragraphs?: string[];
  lands?: ([number, number, number])[];
  asked?: ([string, string, string])[];
}
