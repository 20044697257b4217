import {
  type Catalogue,
  prefixedInstances,
  prefixedParameters,
  type Resolved,
  wireFigures,
} from "../catalogue/index.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";
import type { Instance } from "../formulas/sheet.ts";
import type { Correction, LevelReading } from "../models/periphery/index.ts";
import { finBreakGates, finLayoutRatios } from "../models/process/defaults.ts";
import type { CellModel } from "../models/registry.ts";
import { formatQuantity } from "../quantities/format.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { EntryUse } from "../schema/field.ts";
import type { Design, Study } from "../schema/study.ts";
import { located, type ResolvedCell, resolveCell } from "./cell.ts";
import { type Organised, organise } from "./layout.ts";
import { chosen, ParameterSet } from "./parameters.ts";
import { impossibilities } from "./possible.ts";
import { reliabilityOf } from "./reliability.ts";
import { reliabilityParameters } from "./reliability-parameters.ts";
import type { ReliabilityChoice } from "./reliability-parts.ts";
import { statedIn } from "./stated.ts";
import type { WireSource } from "./structure.ts";

/** A design with everything looked up: what an estimate is made from. */
export interface ResolvedDesign {
  readonly name: string;
  readonly title: string;
  readonly cell: ResolvedCell;
  readonly model: CellModel;
  readonly parameters: ParameterSet;
  /** Sheets of the entries themselves, such as the off resistance from the ratio. */
  readonly instances: readonly Instance[];
  readonly wires: Readonly<Record<"row" | "column" | "route", WireSource>>;
  readonly correction: Correction;
  readonly organised: Organised;
  /** How cells of several bits are read; absent for cells of one bit. */
  readonly levels?: LevelReading;
  /** Absent where the design says nothing of reliability. */
  readonly reliability?: ReliabilityChoice;
  /** Sentences that a user should read. */
  readonly cautions: readonly string[];
  /** What nobody gave: entry and field. */
  readonly defaulted: readonly string[];
  /** Where a key of the design stands, for what is wrong with it. */
  locate(key: string): Pick<Problem, "path" | "place">;
  /** Where the study states a parameter; undefined for what catalogue, defaults and models give. */
  stated(parameter: Parameter): Pick<Problem, "path" | "place"> | undefined;
}

/** Where the design's process is looked up when the study names none. */
const DEFAULT_TECHNOLOGY = "cmos-65";

/**
 * Looks everything up that a design names.
 *
 * @param study as `readStudy` gives it
 * @param name one of its designs
 * @param catalogue with the study's own entries
 * @throws TenfoldError with the place in the study
 */
export function resolveDesign(study: Study, name: string, catalogue: Catalogue): ResolvedDesign {
  const design = study.designs[name]!;
  const path = `/designs/${name}`;
  const technologyUse = design.technology ?? DEFAULT_TECHNOLOGY;
  const technology = located(study, `${path}/technology`, () =>
    catalogue.resolve("technology", technologyUse),
  );
  const cell = located(study, `${path}/cell`, () =>
    resolveCell(study, name, catalogue, technology.parameters),
  );
  const entries = [technology, cell.baseline, cell.switch].filter((one) => one !== undefined);
  const parameters = new ParameterSet();
  parameters.add(finLayout(technology), finBreak(technology), nominalSupply(technology));
  for (const one of entries) parameters.add(...prefixedParameters(one));
  if (cell.selector) parameters.add(...prefixedParameters(cell.selector, "selector_"));
  const locate = (key: string) => ({
    path: `${path}/${key}`,
    place: study.place(`${path}/${key}`),
  });
  parameters.add(...ownParameters(design), ...reliabilityParameters(design.reliability, locate));
  const reliability = reliabilityOf(design, cell);
  const organised = located(study, path, () => organise(design, cell, parameters));
  parameters.add(...organised.parameters);
  const wires = wireSources(study, name, technology, cell, parameters);
  parameters.add(...Object.values(design.overrides ?? {}));
  if (reliability?.parts.verified)
    parameters.add({ ...parameters.get("verify_pulses")!, name: "unheld_pulses" });
  const problems = impossibilities(study, name, cell, organised, parameters);
  if (problems.length > 0) throw new TenfoldError(problems);
  const levels = (design.cell?.bits ?? 1) > 1 ? levelReadingOf(design) : undefined;
  const all = [...entries, ...(cell.selector ? [cell.selector] : [])];
  return {
    name,
    title: design.title ?? name,
    cell,
    model: cell.model,
    parameters,
    instances: [
      ...entries.flatMap((one) => prefixedInstances(one)),
      ...(cell.selector ? prefixedInstances(cell.selector, "selector_") : []),
    ].filter((one) => !isOverridden(one, design)),
    wires,
    correction: correctionOf(design),
    organised,
    ...(levels && { levels }),
    ...(reliability && { reliability }),
    cautions: [
      ...all.flatMap(({ cautions }) => cautions),
      ...supplyCaution(technology, parameters),
      ...levelCautions(design),
    ],
    defaulted: all.flatMap((one) =>
      one.defaulted.map((field) => `${one.kind} ${one.name}: ${field}`),
    ),
    locate,
    stated: statedIn(study, name),
  };
}

/**
 * How levels would be read. One amplifier that decides bit by bit takes least area, which is what
 * several bits are for.
 *
 * @returns undefined where switches are read against each other
 */
export function levelReadingOf({ cell, sense }: Design): LevelReading | undefined {
  const single = cell?.switch !== undefined && (cell.form ?? "single") === "single";
  return single ? (sense?.comparison ?? "successive") : undefined;
}

/** What of several bits in a cell is not counted. */
function levelCautions(design: Design): string[] {
  const { cell, reliability } = design;
  const bits = cell?.bits ?? 1;
  if (bits === 1) return [];
  if (levelReadingOf(design) === undefined) {
    return [
      `a cell of ${bits} bits whose switches are read against each other is read here as if one ` +
        "decision told all its levels: latency, energy and amplifiers of the others are not counted",
    ];
  }
  const { levels, level_tolerance: tolerance } = reliability ?? {};
  return [
    ...(tolerance === undefined
      ? [
          "the levels of a cell are taken as spread as a single pulse leaves them: for writes that " +
            "are repeated until a level is met, state `reliability: level_tolerance`",
        ]
      : []),
    ...(levels === undefined
      ? []
      : [
          "amplifiers are made for levels that lie evenly in ln R, not for the `levels` that are " +
            "stated",
        ]),
  ];
}

/** A figure that the design states itself is not computed from others. */
function isOverridden({ of, prefix = "" }: Instance, { overrides = {} }: Design): boolean {
  const own = Object.values(overrides).map(({ name }) => name);
  const defined = Object.keys(of.kind === "sheet" ? of.formulas : of.outputs);
  return defined.every((name) => own.includes(`${prefix}${name}`));
}

/** Where devices wear out before their time, over the technology's own supply. */
const MOST_SUPPLY_RATIO = 1.2;
/** Overdrive below which the stated threshold's range is worth a factor of several [V]. */
const NEAR_THRESHOLD = 0.1;

/** A supply at which currents and delays say less than elsewhere. */
function supplyCaution(technology: Resolved, parameters: ParameterSet): string[] {
  const own = technology.parameters["supply"];
  const used = parameters.get("supply");
  const threshold = parameters.get("threshold_voltage");
  if (own === undefined || used === undefined || threshold === undefined) return [];
  const text = (value: number) => formatQuantity({ value }, "V");
  const at = `the supply of ${text(used.value)} is`;
  if (used.value > MOST_SUPPLY_RATIO * own.value) {
    return [`${at} far above the technology's own of ${text(own.value)}: devices wear out`];
  }
  if (used.value > threshold.value + NEAR_THRESHOLD) return [];
  return [
    `${at} near or below the threshold of ${text(threshold.value)}: delays and currents are ` +
      "uncertain by a factor of several",
  ];
}

/** The supply at which currents and delay are stated, which a study's own supply does not move. */
function nominalSupply({ parameters }: Resolved): Parameter | undefined {
  const { supply } = parameters;
  return supply && { ...supply, name: "nominal_supply" };
}

/** Devices with fins carry more current per layout width than planar ones. */
function finLayout({ chain }: Resolved): Parameter | undefined {
  const node = chain.find((name) => Object.hasOwn(finLayoutRatios, name));
  if (node === undefined) return undefined;
  return {
    name: "layout_width_ratio",
    unit: "1",
    ...finLayoutRatios[node]!,
    distribution: "two-piece lognormal",
    source: "general-process",
    basis: "memory",
    note: "fin pitch over the perimeter of a fin",
    key: `technology/${node}/layout_width_ratio`,
  };
}

/** Later generations of fins have fewer dummy gates between devices in line. */
function finBreak({ chain }: Resolved): Parameter | undefined {
  const node = chain.find((name) => Object.hasOwn(finBreakGates, name));
  if (node === undefined) return undefined;
  const gates = finBreakGates[node]!;
  return {
    name: "fin_break_gates",
    unit: "1",
    ...gates,
    distribution: gates.high > gates.low ? "two-piece lognormal" : "exact",
    source: "diffusion-break",
    basis: "memory",
    note: "dummy gates over a gap between fins in line, one from 10 nm on",
    key: `technology/${node}/fin_break_gates`,
  };
}

/** What the design says itself, under the names that the sheets read. */
function ownParameters(design: Design): readonly (Parameter | undefined)[] {
  const named = (parameter: Parameter | undefined, name: string) =>
    parameter && { ...parameter, name };
  const { error_correction } = design;
  return [
    named(design.temperature, "temperature"),
    named(design.supply, "supply"),
    named(design.feature, "feature"),
    named(design.periphery_beneath, "periphery_beneath"),
    named(design.sense?.sigmas, "sense_sigmas"),
    named(design.sense?.offset, "sense_offset"),
    named(design.write?.current_limit, "write_current_budget"),
    named(design.write?.verify_pulses, "verify_pulses"),
    chosen("check_bits", 0),
    ...(typeof error_correction === "object"
      ? [chosen("corrected_bits", error_correction.corrects)]
      : []),
  ];
}

function correctionOf({ error_correction }: Design): Correction {
  if (typeof error_correction === "object")
    return error_correction.corrects === 1 ? "single" : "multiple";
  return error_correction ?? "none";
}

type Wire = "row" | "column" | "route";

/** Wires of a crossbar are the tightest; word lines of other arrays and routes are a level up. */
function wireSources(
  study: Study,
  name: string,
  technology: Resolved,
  cell: ResolvedCell,
  into: ParameterSet,
) {
  const { wires } = study.designs[name]!;
  const fallback = {
    row: cell.kind === "crosspoint" ? "local" : "intermediate",
    column: "local",
    route: "intermediate",
  } as const;
  const uses: Record<Wire, EntryUse | undefined> = {
    row: wires?.rows,
    column: wires?.columns,
    route: wires?.routes,
  };
  const source = (wire: Wire): WireSource => {
    const use = uses[wire];
    if (use === undefined) return fallback[wire];
    const figures = located(study, use.path, () =>
      wireFigures(use, fallback[wire], technology.parameters),
    );
    for (const [field, parameter] of Object.entries(figures))
      into.add({ ...parameter, name: `${wire}_wire_${field}` });
    return "given";
  };
  return { row: source("row"), column: source("column"), route: source("route") };
}
