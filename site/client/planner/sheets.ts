// What shows the sheet: on the screen, on paper, and turned over after the visit; and what reads one that was kept. The planner loads it
// when a reader is under way; the build writes behind it the templates that it fills (builder/publish/parts.go).

import { Paper } from "./paper";
import { sheetView } from "./sheet";
import { read } from "../state/opened";
import { visitView } from "./visit";

export interface Sheets {
  Paper: typeof Paper;
  sheetView: typeof sheetView;
  visitView: typeof visitView;
  read: typeof read;
}

(window as { keelpathSheets?: Sheets }).keelpathSheets = { Paper, sheetView, visitView, read };
