// Runs one figure of the page: the reader sets it by sliders, by typing or by
// dragging in its drawing, and it shows what follows. builder/figure made the
// markup, the table and the first picture. Nothing here knows what is computed.

import { Figure, Input, Settings, settle } from "./settle";
import { Tables, Value, read, refused } from "./quantity";
import { slot } from "./dom";

/** What the page does with a figure's question, where it is no link. */
export type Take = (question: string) => void;

export function runFigure(root: HTMLElement, figure: Figure, units: Tables, planner: string, take?: Take): void {
  new Run(root, figure, units, planner, take).start();
}

const copied = "Copied. You can paste it anywhere.";
const notCopied = "The question is marked. Copy it with the menu or with Ctrl and C.";
const taken = "The question is on your sheet.";

class Run {
  private readonly settings: Settings = { amounts: {}, chosen: {}, us: false };
  private readonly says: HTMLElement[];
  private readonly parts: { [part: string]: Element } = {};
  private was: { [key: string]: string } = {};
  private asked = 0;

  constructor(
    private readonly root: HTMLElement,
    private readonly figure: Figure,
    private readonly units: Tables,
    private readonly planner: string,
    private readonly take?: Take,
  ) {
    this.says = this.all("[data-says]");
    for (const e of this.all("[data-part]")) this.parts[e.getAttribute("data-part") as string] = e;
  }

  start(): void {
    for (const input of this.figure.inputs) this.tie(input);
    for (const h of this.figure.handles) this.tieHandle(h.part);
    this.tieQuestion();
    this.root.classList.add("figure-live");
    slot(this.root, "sets").hidden = false;
    slot(this.root, "typical").hidden = true;
    this.show();
  }

  private all(what: string): HTMLElement[] {
    return Array.from(this.root.querySelectorAll<HTMLElement>(what));
  }

  private set(id: string): HTMLElement {
    return this.root.querySelector(`[data-input="${id}"]`) as HTMLElement;
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
    const [slider, field] = Array.from(set.querySelectorAll("input")) as [HTMLInputElement, HTMLInputElement];
    this.type(input, field.value);
    slider.addEventListener("input", () => {
      this.slide(input, Number(slider.value));
      this.refuse(set, field, "");
    });
    slider.addEventListener("change", () => this.tell());
    field.addEventListener("change", () => {
      this.refuse(set, field, this.type(input, field.value));
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
    this.settings.amounts[input.id] = { kind: old.kind, value: Number((steps * m.step).toFixed(9)), unit: old.unit };
    this.later();
  }

  /** Sets an amount from what was typed; gives why it is not taken. */
  private type(input: Input, text: string): string {
    if (!input.measure) return "";
    const v = read(this.units, text, input.measure);
    if (refused(v)) return v.text;
    this.settings.amounts[input.id] = v;
    const unit = this.units.units.find((u) => u.code === v.unit);
    if (unit && unit.system) this.settings.us = unit.system === "us";
    return "";
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
    let at: { x: number; y: number; from: number } | undefined;
    const handle = () => this.figure.handles.find((h) => h.part === part && !this.set(h.input).hidden);
    grip.addEventListener("pointerdown", (event) => {
      const h = handle();
      const v = h && this.settings.amounts[h.input];
      if (!v) return;
      at = { x: event.clientX, y: event.clientY, from: v.value };
      grip.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    grip.addEventListener("pointermove", (event) => {
      const h = handle();
      if (!at || !h) return;
      const svg = grip.ownerSVGElement as SVGSVGElement;
      const scale = svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;
      const moved = (event.clientX - at.x) * (h.right || 0) + (event.clientY - at.y) * (h.down || 0);
      this.slide(this.figure.inputs.find((i) => i.id === h.input) as Input, at.from + moved * scale);
    });
    const drop = (): void => {
      if (at) this.tell();
      at = undefined;
    };
    grip.addEventListener("pointerup", drop);
    grip.addEventListener("pointercancel", drop);
  }

  /** Shows once in the next frame, however often it was asked. */
  private later(): void {
    slot(this.root, "status").textContent = "";
    if (!this.asked) this.asked = requestAnimationFrame(() => this.show());
  }

  private show(): void {
    this.asked = 0;
    const shown = settle(this.figure, this.settings, this.units);
    for (const key in shown.attrs) {
      const text = shown.attrs[key] as string;
      if (this.was[key] === text) continue;
      this.was[key] = text;
      const [part, attr] = key.split(" ") as [string, string];
      (this.parts[part] as Element).setAttribute(attr, text);
    }
    for (const e of this.says) {
      const text = shown.texts[e.getAttribute("data-says") as string] || "";
      if (e.textContent === text) continue;
      e.textContent = text;
      if (e.tagName === "P") e.hidden = !text;
    }
    for (const input of this.figure.inputs) this.showInput(input, shown.open[input.id] as boolean, shown.texts[input.id] as string);
    this.showQuestion(shown.texts["prompt"] || "");
  }

  private showInput(input: Input, open: boolean, said: string): void {
    const set = this.set(input.id);
    if (set.hidden === open) set.hidden = !open;
    const v = this.settings.amounts[input.id] as Value | undefined;
    if (!v) return;
    const [slider, field] = Array.from(set.querySelectorAll("input")) as [HTMLInputElement, HTMLInputElement];
    if (Number(slider.value) !== v.value) slider.value = String(v.value);
    if (slider.getAttribute("aria-valuetext") !== said) slider.setAttribute("aria-valuetext", said);
    const text = this.shortly(input, v);
    if (document.activeElement !== field && field.value !== text && !field.hasAttribute("aria-invalid")) field.value = text;
  }

  /** An amount as one would type it. */
  private shortly(input: Input, v: Value): string {
    const one: Settings = { amounts: { [input.id]: v }, chosen: {}, us: false };
    const bare: Figure = { inputs: [{ id: input.id, measure: input.measure as never }], values: [], texts: [], moves: [], handles: [] };
    return (settle(bare, one, this.units).texts[input.id] as string).split(" (")[0] as string;
  }

  /** Says the result once, when the reader has stopped. */
  private tell(): void {
    requestAnimationFrame(() => {
      const open = this.all(".figure-says p").filter((p) => !p.hidden);
      slot(this.root, "status").textContent = open.map((p) => p.textContent).join(" ");
    });
  }

  // The question to bring

  private showQuestion(question: string): void {
    const link = this.root.querySelector<HTMLAnchorElement>('a[data-act="own"]');
    if (link) link.href = `${this.planner}#own=${encodeURIComponent(question.slice(0, 300))}`;
  }

  private tieQuestion(): void {
    const ask = this.root.querySelector<HTMLElement>(".ask");
    if (!ask) return;
    slot(this.root, "acts").hidden = false;
    const say = (text: string): void => {
      slot(this.root, "done").textContent = text;
    };
    const take = this.take;
    const own = this.root.querySelector<HTMLElement>('button[data-act="own"]');
    if (own && take) {
      own.addEventListener("click", () => {
        take(ask.textContent as string);
        say(taken);
      });
    }
    (this.root.querySelector('[data-act="copy"]') as HTMLElement).addEventListener("click", () => {
      const select = (): void => {
        (getSelection() as Selection).selectAllChildren(ask);
        say(notCopied);
      };
      if (!navigator.clipboard) select();
      else navigator.clipboard.writeText(ask.textContent as string).then(() => say(copied), select);
    });
  }
}
