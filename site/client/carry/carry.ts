// What takes a sheet along: its text, its code, and the answers for a clinic's
// records; and what would change an ending. Few readers ask for these, so the planner loads
// them when one does. The build writes the edition's mark and the forms behind it (builder/publish/carry.go).

import { Held, makeCode, openCode, records } from "./codes";
import { plainText } from "./text";
import { changeLists } from "./would";

export interface Carry extends Held {
  makeCode: typeof makeCode;
  openCode: typeof openCode;
  records: typeof records;
  changeLists: typeof changeLists;
  plainText: typeof plainText;
}

(window as { keelpathCarry?: Partial<Carry> }).keelpathCarry = { makeCode, openCode, records, changeLists, plainText };
