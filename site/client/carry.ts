// What takes a sheet along: its code, and the answers for a clinic's records.
// Few readers ask for either, so the planner loads this when one does. The build
// writes the edition's mark and the forms behind it (builder/publish/carry.go).

import { Form, response } from "./response";
import { decode, encode } from "./sheetcode";

export interface Carry {
  encode: typeof encode;
  decode: typeof decode;
  response: typeof response;
  edition: number;
  /** Trees that can be written as a form. */
  forms: { [tree: string]: Form };
}

(window as { keelpathCarry?: Partial<Carry> }).keelpathCarry = { encode, decode, response };
