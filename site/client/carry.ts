// What takes a sheet along: its text, its code, and the answers for a clinic's
// records; and what would change an ending. Few readers ask for these, so the planner loads
// them when one does. The build writes the edition's mark and the forms behind it (builder/publish/carry.go).

import { Form, response } from "./response";
import { decode, encode } from "./sheetcode";
import { plainText } from "./text";
import { changeLists } from "./would";

export interface Carry {
  encode: typeof encode;
  decode: typeof decode;
  response: typeof response;
  changeLists: typeof changeLists;
  plainText: typeof plainText;
  edition: number;
  /** Trees that can be written as a form. */
  forms: { [tree: string]: Form };
}

(window as { keelpathCarry?: Partial<Carry> }).keelpathCarry = { encode, decode, response, changeLists, plainText };
