import type { Knob } from "../knobs/knob.ts";
import { lastPlace, placeOf, printedValue, valueAt } from "../knobs/scale.ts";
import { byId, made } from "./dom.ts";

interface Shown {
  readonly knob: Knob;
  readonly input: HTMLInputElement;
  readonly output: HTMLOutputElement;
}

/** When a slider was turned, in milliseconds, and in which drag. */
export interface Moment {
  readonly time: number;
  readonly gesture: number;
}

type OnTurn = (knob: Knob, value: number, moment: Moment) => void;

const GROUPS = [
  ["study", "The study"],
  ["uncertainty", "What carries most of the uncertainty"],
] as const;

/** The sliders of a page. */
export class Sliders {
  private readonly home = byId("sliders");
  private readonly onTurn: OnTurn;
  private shown: Shown[] = [];
  private design: string | undefined;
  private gesture = 0;
  private knobs: readonly Knob[] = [];

  constructor(onTurn: OnTurn) {
    this.onTurn = onTurn;
  }

  get readings(): readonly Knob["read"][] {
    return this.knobs.map(({ read }) => read);
  }

  /** Shows these in place of those before; values come with `set`. */
  show(knobs: readonly Knob[]): void {
    if (JSON.stringify(knobs) === JSON.stringify(this.knobs)) return;
    const focused = document.activeElement?.id;
    this.knobs = knobs;
    this.shown = [];
    const groups = GROUPS.flatMap(([group, title]) => {
      const own = knobs.filter((knob) => knob.group === group);
      return own.length === 0 ? [] : [this.fieldset(title, own)];
    });
    this.home.replaceChildren(...groups, ...this.organisation());
    if (focused) document.getElementById(focused)?.focus();
  }

  /** Moves every slider to its value in the text as it is, in the order of `readings`. */
  set(values: readonly number[]): void {
    for (const [i, knob] of this.knobs.entries()) {
      const shown = this.shown.find((one) => one.knob === knob);
      const value = values[i];
      if (shown === undefined || value === undefined) continue;
      shown.input.value = String(placeOf(knob.scale, value));
      this.say(shown, value);
    }
  }

  /** A study that can't be read has nothing to turn. */
  enable(works: boolean): void {
    for (const { input } of this.shown) input.disabled = !works;
  }

  private fieldset(title: string | Node, knobs: readonly Knob[]): HTMLFieldSetElement {
    const box = made("fieldset", "knobs", made("legend", "", title));
    box.append(...knobs.map((knob) => this.row(knob)));
    return box;
  }

  private row(knob: Knob): HTMLElement {
    const id = `knob ${knob.id}`.replace(/[^\w-]+/g, "_");
    const input = made("input");
    Object.assign(input, { type: "range", id, min: "0", step: "1" });
    input.max = String(lastPlace(knob.scale));
    const output = made("output");
    output.htmlFor.add(id);
    const name = made("span", "name", knob.label);
    const label = made("label", "", name);
    if (knob.group !== "organisation") label.append(" ", made("span", "of", knob.detail));
    label.htmlFor = id;
    const shown = { knob, input, output };
    this.shown.push(shown);
    input.addEventListener("input", ({ timeStamp }) => {
      const value = valueAt(knob.scale, Number(input.value));
      this.say(shown, value);
      this.onTurn(knob, value, { time: timeStamp, gesture: this.gesture });
    });
    input.addEventListener("change", () => {
      this.gesture += 1;
    });
    return made("div", "knob", label, output, input);
  }

  private say({ knob, input, output }: Shown, value: number): void {
    const text = printedValue(knob.scale, value);
    output.textContent = text;
    input.setAttribute("aria-valuetext", text);
  }

  /** The sliders of one design at a time: which, says a list. */
  private organisation(): Node[] {
    const all = this.knobs.filter(({ group }) => group === "organisation");
    const designs = new Map(all.map(({ design, detail }) => [design!, detail]));
    if (designs.size === 0) return [];
    if (this.design === undefined || !designs.has(this.design)) {
      this.design = [...designs.keys()][0]!;
    }
    const select = made("select");
    select.id = "organised";
    select.setAttribute("aria-label", "Organisation of which design");
    for (const [name, title] of designs) {
      select.append(new Option(title, name, false, name === this.design));
    }
    const boxes = [...designs.keys()].map((name) => {
      const box = made("div", "", ...all.filter((k) => k.design === name).map((k) => this.row(k)));
      box.hidden = name !== this.design;
      return [name, box] as const;
    });
    select.addEventListener("change", () => {
      this.design = select.value;
      for (const [name, box] of boxes) box.hidden = name !== this.design;
    });
    const legend = made("legend", "", "Organisation of ", select);
    return [made("fieldset", "knobs", legend, ...boxes.map(([, box]) => box))];
  }
}
