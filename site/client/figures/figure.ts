// Runs one figure of the page: the reader sets it by sliders, by typing or by
// dragging in its drawing, and it shows what follows. builder/figure made the
// markup, the table and the first picture. Nothing here knows what is computed.

import { Figure, Handle, Input, Look, Settings, Spot, look, nothingKept } from "./settle";
import { Tables, Value, exact, refused, typed } from "../sums/quantity";
import { slot } from "../page/dom";
import * as words from "../words/words";

/** The planner, where a figure stands beside a question that is asked. */
export interface Reader {
  asked: string; // the question, as tree/question
  /** What the reader answered, or has written so far. */
  amount(question: string): Value | undefined;
  chosen(tree: string, question: string): string[];
  /** Takes an amount of the figure as the answer; only when the reader says so. */
  use(text: string): void;
  /** Puts the figure's question on the sheet, with the amounts it was made with, by question; false if there is no room for it. */
  take(question: string, of: { [question: string]: number }): boolean;
}

/** Gives what makes the figure follow the reader's amounts; it does so at the start. */
export function runFigure(root: HTMLElement, figure: Figure, units: Tables, planner: string, reader?: Reader): () => void {
  const run = new Run(root, figure, units, planner, reader);
  run.start();
  return () => run.follow();
}

/** An element that says a text of the figure. */
interface Said {
  element: HTMLElement;
  id: string;
  text: string;
  /** When it is written. A word of the drawing: always, with each move. The amount
   * beside an input's label: with each move of the inputs; in a drag of the drawing it
   * waits for a rest, for it is costlier to lay out. All else: at a rest. */
  follows: "always" | "inputs" | "rest";
}

/** How long a drag rests, in ms, until all that it changes is written. */
const restTime = 120;

/** How long a slider rests, in ms, until the result is told. Each press of an arrow key
 * ends a change of its own, and a message at each would drown the next. */
const keysRest = 700;

class Run {
  private readonly settings: Settings = { amounts: {}, chosen: {}, us: false };
  private readonly says: Said[];
  private readonly sets: { [input: string]: HTMLElement } = {};
  private readonly steps: { [input: string]: HTMLElement } = {}; // sliders under the drawing, between their - and +
  private readonly shorts: { [input: string]: HTMLElement } = {};
  private readonly sliders: { [input: string]: HTMLInputElement } = {};
  private readonly parts: { [part: string]: Element } = {};
  private readonly kept = nothingKept();
  /** Inputs that hold a number of the reader's, and not of an example. */
  private readonly own: { [input: string]: boolean } = {};
  private number = ""; // what may be taken for the answer
  private was: { [key: string]: string } = {};
  private shown: Look | undefined;
  private asked = 0;
  private rests = 0;
  private tells = 0;
  private moved = 0;
  private grabbed = false;
  private toldNow = false;

  constructor(
    private readonly root: HTMLElement,
    private readonly figure: Figure,
    private readonly units: Tables,
    private readonly planner: string,
    private readonly reader?: Reader,
  ) {
    this.says = this.all("[data-says]").map(
      (element) =>
        ({
          element,
          id: element.getAttribute("data-says") as string,
          text: element.textContent as string,
          follows: { text: "always", B: "inputs" }[element.tagName] || "rest", // SVG writes a tag's name small, HTML large
        }) as Said,
    );
    for (const e of this.all("[data-input]")) this.sets[e.getAttribute("data-input") as string] = e;
    for (const e of this.all("[data-step]")) this.steps[e.getAttribute("data-step") as string] = e;
    for (const e of this.all("[data-short]")) this.shorts[e.getAttribute("data-short") as string] = e;
    for (const e of this.all("[data-part]")) this.parts[e.getAttribute("data-part") as string] = e;
  }

  start(): void {
    for (const input of this.figure.inputs) this.tie(input);
    for (const h of this.figure.handles) this.tieHandle(h.part);
    this.tieQuestion();
    if (this.reader) this.tieReader(this.reader);
    this.root.classList.add("figure-live");
    slot(this.root, "hand").hidden = false;
    slot(this.root, "sets").hidden = false;
    slot(this.root, "typical").hidden = true;
    this.show();
    this.showQuestion();
    this.fillFields();
  }

  private all(what: string): HTMLElement[] {
    return Array.from(this.root.querySelectorAll<HTMLElement>(what));
  }

  private set(id: string): HTMLElement {
    return this.sets[id] as HTMLElement;
  }

  /** Ties an input's controls, and reads what they hold: a browser may have kept it. */
  private tie(input: Input): void {
    const set = this.set(input.id);
    const select = set.querySelector("select");
    if (select) {
      const choose = (): void => {
        this.settings.chosen[input.id] = select.value;
      };
      choose();
      select.addEventListener("change", () => {
        choose();
        this.later();
        this.tell();
      });
      return;
    }
    const field = this.field(input);
    const slider = this.root.querySelector(`[data-slider="${input.id}"]`) as HTMLInputElement;
    this.sliders[input.id] = slider;
    this.type(input, field.value);
    slider.addEventListener("input", () => {
      this.slide(input, Number(slider.value));
      this.refuse(set, field, "");
    });
    slider.addEventListener("change", () => this.tell(keysRest));
    for (const button of Array.from((this.steps[input.id] || set).querySelectorAll("button"))) {
      button.addEventListener("click", () => {
        this.step(input, Number(button.getAttribute("data-by")), Number(slider.step));
        this.refuse(set, field, "");
        this.tell(keysRest);
      });
    }
    field.addEventListener("change", () => {
      const no = this.type(input, field.value);
      if (!no) this.own[input.id] = true;
      this.refuse(set, field, no);
      this.later();
      this.tell();
    });
  }

  /** Sets an amount from a slider or a drag, in canonical units, within the measure. */
  private slide(input: Input, to: number): void {
    const m = input.measure;
    const old = this.settings.amounts[input.id];
    if (!m || !old) return;
    const steps = Math.round(Math.min(m.to, Math.max(m.from, to)) / m.step);
    const value = Number((steps * m.step).toFixed(9));
    if (value === old.value && !old.rest) return;
    this.settings.amounts[input.id] = { kind: old.kind, value, unit: old.unit };
    this.own[input.id] = true;
    this.later();
  }

  private field(input: Input): HTMLInputElement {
    return this.set(input.id).querySelector('input[type="text"]') as HTMLInputElement;
  }

  /** Goes to the next whole step above or below. */
  private step(input: Input, by: number, size: number): void {
    const v = this.settings.amounts[input.id];
    if (!v) return;
    const at = exact(v) / size;
    this.slide(input, (by > 0 ? Math.floor(at + 1 + 1e-6) : Math.ceil(at - 1 - 1e-6)) * size);
  }

  /** Sets an amount from what was typed; gives why it is not taken. */
  private type(input: Input, text: string): string {
    if (!input.measure) return "";
    const v = typed(this.units, text, input.measure);
    if (refused(v)) return v.text;
    this.settings.amounts[input.id] = v;
    this.speak(v);
    return "";
  }

  /** Says inches and pounds first to whoever writes them. */
  private speak(v: Value): void {
    const unit = this.units.units.find((u) => u.code === v.unit);
    if (unit && unit.system) this.settings.us = unit.system === "us";
  }

  private refuse(set: HTMLElement, field: HTMLInputElement, why: string): void {
    const no = slot(set, "no");
    no.textContent = why;
    no.hidden = !why;
    if (why) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
  }

  /** Drags in the drawing change an input as the table says. */
  private tieHandle(part: string): void {
    const grip = this.parts[part] as SVGGElement;
    const svg = grip.ownerSVGElement as SVGSVGElement;
    let began: ((event: PointerEvent) => number) | undefined;
    const handle = () => this.figure.handles.find((h) => h.part === part && !this.set(h.input).hidden);
    grip.addEventListener("pointerdown", (event) => {
      const h = handle();
      const v = h && this.settings.amounts[h.input];
      const into = svg.getScreenCTM();
      if (!v || !into) return;
      began = dragged(h, v.value, event, into.inverse(), grip);
      this.grabbed = true;
      grip.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    grip.addEventListener("pointermove", (event) => {
      const h = handle();
      if (began && h) this.slide(this.figure.inputs.find((i) => i.id === h.input) as Input, began(event));
    });
    const drop = (): void => {
      this.grabbed = false;
      if (began) this.tell();
      began = undefined;
    };
    grip.addEventListener("pointerup", drop);
    grip.addEventListener("pointercancel", drop);
  }

  /** Shows once in the next frame, however often it was asked. */
  private later(): void {
    clearTimeout(this.tells);
    if (this.toldNow) slot(this.root, "status").textContent = "";
    this.toldNow = false;
    this.shown = undefined;
    if (!this.asked) this.asked = requestAnimationFrame(() => this.redraw());
  }

  /** The drawing and its words follow in each frame. The rest waits until the reader
   * stops, for each word of it makes a part of the page be laid out anew. */
  private redraw(): void {
    this.asked = 0;
    this.draw();
    this.moved = performance.now();
    if (!this.rests) this.rest(restTime);
  }

  /** Waits for the reader to stop. One timer outlasts many moves: to end it and begin
   * another at each would cost more than the sums do. */
  private rest(ms: number): void {
    this.rests = setTimeout(() => {
      const left = this.moved + restTime - performance.now();
      if (left > 0) this.rest(left);
      else this.show();
    }, ms);
  }

  private show(): void {
    clearTimeout(this.rests);
    this.rests = 0;
    this.draw();
    for (const said of this.says) this.word(said);
    for (const i of this.figure.inputs) this.showInput(i);
    if (this.reader) this.showUse(this.reader);
  }

  private draw(): void {
    if (this.asked) cancelAnimationFrame(this.asked);
    this.asked = 0;
    if (this.shown) return;
    const shown = (this.shown = look(this.figure, this.settings, this.units, this.kept));
    for (const key in shown.attrs) {
      const text = shown.attrs[key] as string;
      if (this.was[key] === text) continue;
      const [part, attr] = key.split(" ") as [string, string];
      // What is not shown is brought up to date when it is.
      if (attr !== "display" && shown.attrs[part + " display"] === "none") continue;
      this.was[key] = text;
      (this.parts[part] as Element).setAttribute(attr, text);
    }
    for (const said of this.says) if (said.follows === "always" || (said.follows === "inputs" && !this.grabbed)) this.word(said);
  }

  private word(said: Said): void {
    const text = (this.shown as Look).text(said.id);
    if (said.text === text) return;
    said.text = text;
    const node = said.element.firstChild;
    if (node && text) node.nodeValue = text; // cheaper than another node
    else said.element.textContent = text;
    if (said.element.tagName === "P") said.element.hidden = !text;
  }

  private showInput(input: Input): void {
    const shown = this.shown as Look;
    this.set(input.id).hidden = !shown.open[input.id];
    const step = this.steps[input.id];
    if (step) step.hidden = !shown.open[input.id];
    const v = this.settings.amounts[input.id];
    const slider = this.sliders[input.id];
    if (!v || !slider) return;
    if (Number(slider.value) !== exact(v)) slider.value = String(exact(v));
    slider.setAttribute("aria-valuetext", shown.text(input.id));
    this.showShort(input, v);
  }

  /** The amount beside a slider under the drawing: as one would type it, for there is little room. */
  private showShort(input: Input, v: Value): void {
    const b = this.shorts[input.id];
    if (!b) return;
    const text = this.shortly(input, v);
    if (b.textContent !== text) b.textContent = text;
  }

  /** Puts the amounts into the fields, once the reader has stopped: a field is costly to draw. */
  private fillFields(): void {
    for (const input of this.figure.inputs) {
      const v = this.settings.amounts[input.id];
      if (v) this.fillField(input, v);
    }
  }

  private fillField(input: Input, v: Value): void {
    const field = this.field(input);
    const text = this.shortly(input, v);
    if (document.activeElement !== field && field.value !== text && !field.hasAttribute("aria-invalid")) field.value = text;
  }

  /** An amount as one would type it. */
  private shortly(input: Input, v: Value): string {
    const one: Settings = { amounts: { [input.id]: v }, chosen: {}, us: false };
    const bare: Figure = { inputs: [{ id: input.id, measure: input.measure as never }], values: [], texts: [], moves: [], handles: [] };
    return look(bare, one, this.units).text(input.id).split(" (")[0] as string;
  }

  /** Shows all that follows, and says the result once, when the reader has stopped. */
  private tell(wait = 0): void {
    requestAnimationFrame(() => {
      this.show();
      this.fillFields();
      this.showQuestion();
      clearTimeout(this.tells);
      if (wait) this.tells = setTimeout(() => this.sayResult(), wait);
      else this.sayResult();
    });
  }

  /** What is told at a rest is what is in view: the results, what warns, and the words of the drawing. */
  private sayResult(): void {
    const open = this.all(".figure-says p, text[data-says]").filter((p) => !p.hidden && p.textContent);
    this.toldNow = true;
    slot(this.root, "status").textContent = open.map((p) => p.textContent).join(" ");
  }

  // The reader's own answers, in the planner

  private tieReader(reader: Reader): void {
    this.follow(true);
    (this.root.querySelector('[data-act="use"]') as HTMLElement).addEventListener("click", () => {
      reader.use(this.number);
      slot(this.root, "done").textContent = words.figureUsed;
    });
  }

  /** Goes by the reader's amounts. Where there is none, the figure stays as it is. */
  follow(first = false): void {
    const reader = this.reader;
    if (!reader) return;
    for (const spot of this.figure.at || []) {
      const v = reader.amount(spot.question);
      if (v) this.put(spot, this.into(spot, reader), v);
    }
    if (first) return;
    this.later();
    requestAnimationFrame(() => {
      this.show();
      this.fillFields();
      this.showQuestion();
    });
  }

  /** The input that begins at the reader's amount. */
  private into(spot: Spot, reader: Reader): string {
    const chosen = spot.by ? reader.chosen(spot.question.split("/")[0] as string, spot.by) : [];
    return (chosen.length === 1 && spot.other && spot.other[chosen[0] as string]) || spot.input;
  }

  private put(spot: Spot, into: string, v: Value): void {
    const less = spot.less ? exact(this.settings.amounts[spot.less] as Value) : 0;
    for (const id of spot.sum || []) this.settings.amounts[id] = { kind: v.kind, value: 0, unit: v.unit };
    this.settings.amounts[into] = less ? { kind: v.kind, value: exact(v) + less, unit: v.unit } : v;
    this.own[into] = true;
    this.speak(v);
  }

  /** Offers the figure's amount for the box where that holds another, and the
   * question once each amount in it is the reader's. */
  private showUse(reader: Reader): void {
    const shown = this.shown as Look;
    const spots = this.figure.at || [];
    const spot = spots.find((s) => s.question === reader.asked) as Spot;
    const here = reader.amount(reader.asked);
    const there = shown.number(spot.is);
    const same = here !== undefined && there !== undefined && Math.abs(exact(here) - there) < 1e-9;
    this.number = this.worded(spot, this.into(spot, reader));
    slot(this.root, "number").textContent = this.number;
    slot(this.root, "use").hidden = same || !this.number;
    const mine = spots.every((s) => [s.input].concat(s.sum || [], s.less || []).some((id) => this.own[id]));
    slot(this.root, "example").hidden = mine;
    slot(this.root, "acts").hidden = !mine;
  }

  /** The amount that a question asks for, as one would type it. */
  private worded(spot: Spot, into: string): string {
    const shown = this.shown as Look;
    const amounts = this.settings.amounts;
    const alone = !spot.less && (spot.sum || []).every((id) => id === into || !exact(amounts[id] as Value));
    if (!alone || !shown.open[into]) return shown.text(spot.is).split(" (")[0] as string;
    return this.shortly(this.figure.inputs.find((i) => i.id === into) as Input, amounts[into] as Value);
  }

  // The question to bring

  /** The amounts that the question is made with, by the questions that ask for them. */
  private made(): { [question: string]: number } {
    const out: { [question: string]: number } = {};
    for (const spot of this.figure.at || []) {
      const x = (this.shown as Look).number(spot.is);
      if (x !== undefined) out[spot.question] = x;
    }
    return out;
  }

  private showQuestion(): void {
    const question = (this.shown as Look).text("prompt");
    const link = this.root.querySelector<HTMLAnchorElement>('a[data-act="own"]');
    if (link) link.href = `${this.planner}#own=${encodeURIComponent(question)}`;
  }

  private tieQuestion(): void {
    const ask = this.root.querySelector<HTMLElement>(".ask");
    if (!ask) return;
    slot(this.root, "acts").hidden = false;
    const say = (text: string): void => {
      slot(this.root, "done").textContent = text;
    };
    const reader = this.reader;
    const own = this.root.querySelector<HTMLElement>('button[data-act="own"]');
    if (own && reader) {
      own.addEventListener("click", () => {
        say(reader.take(ask.textContent as string, this.made()) ? words.figureTaken : words.figureNoRoom);
      });
    }
    (this.root.querySelector('[data-act="copy"]') as HTMLElement).addEventListener("click", () => {
      const select = (): void => {
        (getSelection() as Selection).selectAllChildren(ask);
        say(words.figureCopyByHand);
      };
      if (!navigator.clipboard) select();
      else navigator.clipboard.writeText(ask.textContent as string).then(() => say(words.figureCopied), select);
    });
  }
}

/** Gives the amount at each place of the pointer. A grip taken at its edge does not jump to the pointer. */
function dragged(h: Handle, from: number, start: PointerEvent, into: DOMMatrix, grip: SVGGElement): (event: PointerEvent) => number {
  const at = (event: PointerEvent): DOMPoint => new DOMPoint(event.clientX, event.clientY).matrixTransform(into);
  const a = at(start);
  const about = h.about;
  if (!about) return (event) => from + (at(event).x - a.x) * (h.right || 0) + (at(event).y - a.y) * (h.down || 0);
  const box = (grip.querySelector(".d-grip") as SVGGraphicsElement).getBoundingClientRect();
  const middle = new DOMPoint(box.left + box.width / 2, box.top + box.height / 2).matrixTransform(into);
  const [x, y] = about as [number, number];
  return (event) => {
    const p = at(event);
    const right = Math.max(1, p.x - a.x + middle.x - x);
    return (y - (p.y - a.y + middle.y)) / right;
  };
}
