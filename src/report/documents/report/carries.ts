import { REPORTED } from "../../../estimate/quantities.ts";
import { formatQuantity } from "../../../quantities/format.ts";
import type { EstimatedDesign, StudyEstimate } from "../../../studies/estimate.ts";
import { MacroUncertainty } from "../../../studies/uncertainty/model.ts";
import { tornadoes } from "../../../studies/uncertainty/tornado.ts";
import { type Swinging, tornadoChart } from "../../charts/tornado.ts";
import type { Block } from "../../document/document.ts";
import { heading, paragraph } from "../../document/make.ts";
import { tornadoTable } from "../uncertainty.ts";
import { answeringDesign } from "./answer.ts";

/** The quantities that a reviewer asks about first. */
const ASKED = ["macro_area", "read_latency", "write_energy_per_bit", "standby_power"];
/** Parameters that an alternative text names. */
const NAMED = 3;

/** What carries the uncertainty of the design that the answer is about: one parameter at a time. */
export function carriesBlocks(estimate: StudyEstimate): Block[] {
  const design = answeringDesign(estimate) ?? estimate.baseline;
  if (design === undefined || design.broken.length > 0) return [];
  const found = swinging(design).filter(({ tornado }) => tornado.swings.length > 0);
  if (found.length === 0) return [];
  return [
    heading("What carries the uncertainty"),
    paragraph(
      `Parameters of ${design.title}, one at a time at the ends of their ranges, all others as they are. ` +
        "Parts of the variance, with what parameters do together: " +
        `tenfold uncertainty FILE --design ${design.name}.`,
    ),
    ...found.flatMap((one): Block[] => [
      {
        kind: "picture",
        name: `${one.tornado.quantity}_carried_by`,
        caption: `What moves the ${one.label} of ${design.title}.`,
        alternative: alternativeOf(design.title, one),
        svg: tornadoChart(design.title, one),
      },
      tornadoTable(one.tornado.quantity, one),
    ]),
  ];
}

function swinging({ model, figures }: EstimatedDesign): Swinging[] {
  const asked = REPORTED.filter(({ name }) => ASKED.includes(name) && figures.has(name));
  const uncertain = new MacroUncertainty(
    asked.map(({ name }) => ({ model, quantity: name, name })),
  );
  return tornadoes(uncertain).map((tornado, i) => {
    const { label, unit } = asked[i]!;
    return { label, unit, tornado };
  });
}

function alternativeOf(title: string, { label, unit, tornado }: Swinging): string {
  const shown = (value: number) =>
    Number.isFinite(value) ? formatQuantity({ value }, unit) : "where it does not work";
  const most = tornado.swings
    .slice(0, NAMED)
    .map(
      ({ parameter, atLow, atHigh }) =>
        `${parameter.name.replaceAll("_", " ")} from ${shown(atLow)} to ${shown(atHigh)}`,
    );
  return `The ${label} of ${title} is ${shown(tornado.nominal)}; most move it ${most.join(", ")}.`;
}
