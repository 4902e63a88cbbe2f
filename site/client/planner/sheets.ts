// What shows the sheet: on the screen, on paper, and turned over after the visit; and what reads one that was kept. The planner loads it
// when a reader is under way; the build writes behind it the templates that it fills (builder/publish/parts.go).

import { about } from "../sheet/about";
import { Paper } from "./paper";
import { sheetView } from "./sheet";
import { Data } from "../state/data";
import { Found } from "../state/kept";
import { read } from "../state/opened";
import { visitView } from "./visit";
import * as words from "../words/words";

export interface Sheets {
  about: typeof about;
  Paper: typeof Paper;
  sheetView: typeof sheetView;
  visitView: typeof visitView;
  read(text: string, data: Data): Found;
}

function readSaid(text: string, data: Data): Found {
  const found = read(text, data);
  return { ...found, says: "refused" in found ? words.notOpened[found.refused] : words.leftOut(found) };
}

(window as { keelpathSheets?: Sheets }).keelpathSheets = { about, Paper, sheetView, visitView, read: readSaid };
