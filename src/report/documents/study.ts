import { formatQuantity } from "../../quantities/format.ts";
import type { Design, Study } from "../../schema/study.ts";
import type { EstimatedDesign, StudyEstimate } from "../../studies/estimate.ts";
import type { Block, Note } from "../document/document.ts";
import { note } from "../document/make.ts";

/** What every report says at its end. */
export const CAUTION = "Early estimate, not sign-off: use foundry data before you commit.";

/** `1 Mib · 32-bit words · cmos-65 · 10 °C · 95 % intervals from parameters`: what all designs share. */
export function studyLine(study: Study): string {
  const designs = Object.values(study.designs);
  const common = <T>(get: (design: Design) => T | undefined): T | undefined => {
    const [first, ...others] = designs.map(get);
    return others.every((other) => other === first) ? first : undefined;
  };
  const capacity = common(({ capacity }) => capacity);
  const word = common(({ word }) => word);
  const technology = common(({ technology }) => technology?.from);
  const temperature = common(({ temperature }) => temperature?.value);
  const parts = [
    capacity && formatQuantity({ value: capacity }, "bit"),
    word && `${word}-bit words`,
    technology,
    temperature && formatQuantity({ value: temperature }, "K", { show: "degC" }),
    `${Number((100 * study.coverage).toPrecision(3))} % intervals from parameters`,
  ];
  return parts.filter((part) => part !== undefined && part !== 0).join(" · ");
}

/** What is to be said of the designs, each with its name, and the caution of all reports. */
export function remarkBlocks(designs: readonly EstimatedDesign[]): Block[] {
  const notes: Note[] = designs.flatMap(({ title, remarks }) =>
    remarks.map(({ level, text }) => note(level, `${title}: ${text}`)),
  );
  return [...notes, note("note", CAUTION)];
}

/** Totals with their names for readers, in the order in which they are shown. */
export const TOTALS: Readonly<
  Record<string, { readonly label: string; readonly caption: string }>
> = {
  macro_area: { label: "macro area", caption: "Where the area goes" },
  read_latency: { label: "read latency", caption: "Where the read latency goes" },
  write_latency: { label: "write latency", caption: "Where the write latency goes" },
  read_energy: { label: "read energy", caption: "Where the energy of a read goes" },
  write_energy: { label: "write energy", caption: "Where the energy of a write goes" },
  standby_power: { label: "standby power", caption: "Where the standby power goes" },
  transistors: { label: "transistors", caption: "Where the transistors are" },
};

/** The parts of one total, a bar for each design that has it. */
export function breakdown(estimate: StudyEstimate, total: string): Block[] {
  const with_ = estimate.designs.filter((design) => hasParts(design, total));
  if (with_.length === 0) return [];
  return [
    {
      kind: "bars",
      name: `${total}_parts`,
      caption: TOTALS[total]?.caption ?? total,
      unit: unitOf(with_[0]!, total),
      bars: with_.map(({ title, breakdown: parts }) => ({
        label: title,
        parts: parts.get(total)!,
      })),
    },
  ];
}

/** A breakdown of what does not work would say nothing. */
export function hasParts({ broken, breakdown: parts }: EstimatedDesign, total: string): boolean {
  return broken.length === 0 && (parts.get(total)?.length ?? 0) > 0;
}

/** SI unit of a total. */
export function unitOf({ model }: EstimatedDesign, total: string): string {
  return model.totals.find(({ name }) => name === total)!.unit;
}
