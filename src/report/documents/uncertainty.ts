import type { Estimate } from "../../numerics/sampling/sensitivity.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import {
  estimateLike,
  type StudyUncertainty,
  type UncertainDesign,
  type UncertainQuantity,
} from "../../studies/uncertainty/study.ts";
import type { TargetAnswer } from "../../studies/uncertainty/targets.ts";
import type { Swing } from "../../studies/uncertainty/tornado.ts";
import type { Swinging } from "../charts/tornado.ts";
import type { Block, Cell, Column, Document } from "../document/document.ts";
import { heading, interval, none, note, quantity, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";
import { modelErrorBlocks } from "./model-error.ts";

/** Influences of each quantity where several are asked for; one alone gets all. */
const FEW = 4;

/** Coverage intervals, what carries them, and what must improve. */
export function uncertaintyDocument(result: StudyUncertainty): Document {
  const { study, designs, targets, settings } = result;
  const single = designs.every(({ quantities }) => quantities.length <= 1);
  return {
    title: study.title,
    subtitle: [
      `${Math.round(100 * study.coverage)} % ${settings.interval ?? "symmetric"} intervals from parameters`,
      settings.sampling === "pseudo-random" ? "pseudo-random draws" : "scrambled Sobol' sequence",
      `seed ${study.seed}`,
    ].join(" · "),
    blocks: [
      ...designs.flatMap((design) => designBlocks(design, single)),
      ...targets.flatMap(targetBlocks),
      ...modelErrorBlocks(
        estimateLike(result),
        designs.flatMap(({ quantities }) => quantities.map(({ name }) => name)),
      ),
      ...CAUTIONS,
    ],
  };
}

function designBlocks(design: UncertainDesign, single: boolean): Block[] {
  const { name, title, broken, quantities, draws, failed } = design;
  if (broken !== undefined) {
    return [heading(title), note("warning", `${title} does not work: ${broken}.`)];
  }
  return [
    heading(title),
    intervalTable(name, quantities),
    influenceTable(name, quantities, single),
    ...(single ? quantities.map((one) => tornadoTable(name, one)) : []),
    note("note", `${draws} draws${leftOut(failed)}.`),
    ...unsettledNote(quantities, draws),
  ];
}

/** What the draws did not settle, and how many would: errors fall as the root of their number. */
function unsettledNote(quantities: readonly UncertainQuantity[], draws: number): Block[] {
  const unsettled = quantities.filter(({ stable }) => !stable);
  if (unsettled.length === 0) return [];
  const worst = Math.max(...unsettled.map((one) => one.unsteadiness / one.tolerance));
  const needed = Number((draws * worst * worst).toPrecision(1));
  return [
    note(
      "caution",
      `${unsettled.map(({ label }) => label).join(", ")}: not yet stable to the wanted digits; ` +
        `about ${needed} draws would do, which \`most_draws\` allows.`,
    ),
  ];
}

function leftOut(failed: number): string {
  if (failed === 0) return "";
  return `; ${percent(failed)} of all draws were left out, since the memory works in none of them`;
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

const right = (name: string, title: string): Column => ({ name, title, align: "right" });

function intervalTable(name: string, quantities: readonly UncertainQuantity[]): Block {
  const hasModel = quantities.some(({ model }) => model !== undefined);
  return {
    kind: "table",
    name: `${name}_intervals`,
    columns: [
      { name: "quantity", title: "quantity" },
      right("value", "value"),
      right("median", "median"),
      right("mean", "mean"),
      right("uncertainty", "standard uncertainty"),
      ...(hasModel ? [right("model", "model error")] : []),
    ],
    rows: quantities.map((one) => [
      text(one.label),
      quantity(one.unit, { value: one.nominal, low: one.interval.low, high: one.interval.high }),
      quantity(one.unit, one.median),
      quantity(one.unit, one.mean),
      quantity(one.unit, one.uncertainty),
      ...(hasModel ? [one.model ? interval(one.unit, one.model) : none] : []),
    ]),
  };
}

/** The parameters that carry a quantity's variance. */
function influenceTable(
  name: string,
  quantities: readonly UncertainQuantity[],
  single: boolean,
): Block {
  const rows = quantities.flatMap(({ label, sensitivity }) => {
    const shown = single ? sensitivity.influences : sensitivity.influences.slice(0, FEW);
    return shown.map(({ parameters, first, total }, i): Cell[] => [
      ...(single ? [] : [text(i === 0 ? label : "")]),
      text(namesOf(parameters, sensitivity.others)),
      indexCell(first),
      indexCell(total),
    ]);
  });
  return {
    kind: "table",
    name: `${name}_influences`,
    caption:
      `What carries the variance${single ? ` of the ${quantities[0]?.label}` : ""}: ` +
      "alone, and with what it does together with others",
    columns: [
      ...(single ? [] : [{ name: "quantity", title: "quantity" }]),
      { name: "parameter", title: "parameter" },
      right("first_order", "alone"),
      right("total", "in all"),
    ],
    rows,
  };
}

function namesOf(parameters: readonly Parameter[], others: number): string {
  if (parameters.length === 0) return `${others} others together`;
  return parameters.map(({ name }) => name).join(" with ");
}

function indexCell(index: Estimate): Cell {
  return isKnown(index) ? quantity("1", { ...index }) : none;
}

/** Quantities that hardly vary, or designs that hardly work, have no indices. */
export function isKnown({ value, low, high }: Estimate): boolean {
  return [value, low, high].every(Number.isFinite);
}

/** One parameter at a time at its low and its high value. */
export function tornadoTable(name: string, one: Swinging): Block {
  const { unit, tornado, label } = one;
  const cells = ({ parameter, from, to, atLow, atHigh }: Swing): Cell[] => [
    text(parameter.name),
    quantity(parameter.unit, from),
    quantity(parameter.unit, to),
    ...[atLow, atHigh].map((value) => (Number.isFinite(value) ? quantity(unit, value) : none)),
  ];
  return {
    kind: "table",
    name: `${name}_tornado`,
    caption: `${label}, one parameter at a time at its 2.5 % and 97.5 % points`,
    columns: [
      { name: "parameter", title: "parameter" },
      right("low", "low"),
      right("high", "high"),
      right("at_low", `${label} at low`),
      right("at_high", "at high"),
    ],
    rows: tornado.swings.slice(0, 24).map(cells),
  };
}

function targetBlocks(target: TargetAnswer, index: number): Block[] {
  const { want, design, confidence, share, needed } = target;
  const held = `${design}: ${want} holds in ${percent(share)} of the draws; wanted ${percent(confidence)}.`;
  if (share >= confidence) return [heading(`Target: ${want}`), note("note", held)];
  return [
    heading(`Target: ${want}`),
    note("note", held),
    {
      kind: "table",
      name: `target_${index + 1}`,
      caption: "One parameter, known exactly, that would be enough alone",
      columns: [
        { name: "parameter", title: "parameter" },
        right("nominal", "now"),
        right("below", "at most"),
        right("above", "at least"),
        { name: "reach", title: "tried" },
      ],
      rows: needed.map(({ parameter, below, above, reach }) => [
        text(parameter.name),
        quantity(parameter.unit, parameter.value),
        below === undefined ? none : quantity(parameter.unit, below),
        above === undefined ? none : quantity(parameter.unit, above),
        text(
          below === undefined && above === undefined
            ? "not enough anywhere in reach"
            : `× ${factor(reach.low, parameter.value)} to × ${factor(reach.high, parameter.value)}`,
        ),
      ]),
    },
  ];
}

function factor(end: number, nominal: number): string {
  return String(Number((end / nominal).toPrecision(3)));
}
