import type { Place } from "../../errors/problem.ts";
import { choice, either, group, name, named, text } from "../../schema/define.ts";
import type { Field } from "../../schema/field.ts";
import { readPlainFile } from "../../schema/plain-file.ts";

/** Quantities that evidence compares, with the words for people and the unit of both sides. */
export const COMPARED_QUANTITIES = {
  cell_area: { label: "cell area", unit: "m^2" },
  macro_area: { label: "area", unit: "m^2" },
  array_efficiency: { label: "array efficiency", unit: "1" },
  read_latency: { label: "read latency", unit: "s" },
  sensing_time: { label: "sensing time", unit: "s" },
  write_latency: { label: "write latency", unit: "s" },
  read_energy_per_bit: { label: "read energy per bit", unit: "J" },
  standby_power: { label: "standby power", unit: "W" },
} as const;
export type ComparedQuantity = keyof typeof COMPARED_QUANTITIES;

/** Of what a published area is: like is compared with like. */
export const REGIONS = {
  die: "the whole chip, with pads, interface and test",
  macro: "a block that one drops on a chip: arrays, control, latches and routes",
  array: "arrays with the circuits along their rows and columns, without what serves them all",
} as const;
export type Region = keyof typeof REGIONS;

/** Figures of a chip that a quantity may be compared with, and how each becomes that quantity. */
const FIGURES = {
  cell_area: "its area of one cell",
  cell_area_in_feature_squared: "times the square of its node",
  cell_area_to_sram_6t: "times the static cell of the technology",
  area: "its area",
  density: "capacity over density",
  array_efficiency: "cell area over area, as the paper has it",
  cell_share: "capacity times cell area over area, from those figures",
  read_latency: "its time of a read",
  write_latency: "its time of a write",
  word_over_write_bandwidth: "the bits of a word over its write bandwidth",
  read_energy_per_bit: "its energy of a read per bit",
  energy_per_access: "its energy of an access over the bits of a word",
  read_current_over_clock: "read current times supply over clock and bits of a word",
  standby_power: "its power while the state is kept",
} as const;
export type ComparedFigure = keyof typeof FIGURES;

/** What of one chip stands for which quantity. */
export interface PlannedFigure {
  readonly quantity: ComparedQuantity;
  readonly figure: ComparedFigure;
  /** Of areas and shares of areas; a macro unless said. */
  readonly region: Region;
}

/** What of one chip is compared with its study. */
export interface PlannedChip {
  readonly name: string;
  readonly kind: string;
  readonly compared: readonly PlannedFigure[];
  /** What the paper does not state and the study therefore leaves to the defaults. */
  readonly defaulted: string;
  /** Why a quantity is off by more than two. */
  readonly why: Readonly<Partial<Record<ComparedQuantity, string>>>;
}

export interface EvidencePlan {
  readonly file: string;
  readonly chips: readonly PlannedChip[];
  /** Chips that are not compared, with the reason. */
  readonly leftOut: Readonly<Record<string, string>>;
  /** Where a JSON pointer such as `/chips/one/compared` leads to. */
  place(path: string): Place;
}

const FORMAT = "tenfold.evidence/1";

interface StatedFigure {
  readonly figure: ComparedFigure;
  readonly of?: Region;
}
type StatedFigures = { readonly [Q in ComparedQuantity]?: ComparedFigure | StatedFigure };
interface StatedChip {
  readonly kind: string;
  readonly compared: StatedFigures;
  readonly defaulted: string;
  readonly why?: { readonly [Q in ComparedQuantity]?: string };
}
interface StatedPlan {
  readonly format: typeof FORMAT;
  readonly name?: string;
  readonly title?: string;
  readonly about?: string;
  readonly chips: Readonly<Record<string, StatedChip>>;
  readonly left_out?: Readonly<Record<string, string>>;
}

const figure = choice("figure of a chip", FIGURES, { required: true, example: "read_latency" });

/** A definition for every quantity that is compared. */
function eachQuantity<T>(of: (label: string) => Field<T>) {
  const fields = Object.entries(COMPARED_QUANTITIES).map(([key, { label }]) => [key, of(label)]);
  return Object.fromEntries(fields) as Readonly<Record<ComparedQuantity, Field<T>>>;
}

const comparedField = group<StatedFigures>(
  "quantity of an estimate and the figure of the chip that it is compared with",
  eachQuantity((label) =>
    either(
      `what the ${label} is compared with`,
      figure,
      group<StatedFigure>(`what the ${label} is compared with, and of what it is`, {
        figure,
        of: choice("region of a chip", REGIONS, { example: "die" }),
      }),
    ),
  ),
  { required: true },
);

const planField = group<StatedPlan>("what is compared with published silicon", {
  format: choice("format", { [FORMAT]: "a plan of the evidence" }, { required: true }),
  name: name("the name of the file"),
  title: text("a line for tables"),
  about: text("anything a reader should know"),
  chips: named(
    "the chips",
    "the name of a chip",
    group<StatedChip>("a chip", {
      kind: name("kind of memory, such as static or resistive", {
        required: true,
        example: "resistive",
      }),
      compared: comparedField,
      defaulted: text("what the paper does not state", { required: true, example: "tile, banks" }),
      why: group<{ readonly [Q in ComparedQuantity]?: string }>(
        "why a figure is off by more than two",
        eachQuantity((label) => text(`why the ${label} is off`)),
      ),
    }),
    { required: true },
  ),
  left_out: named("chips that are not compared", "the name of a chip", text("the reason")),
});

/**
 * Reads a plan of the evidence.
 * @throws TenfoldError with every mistake of the file at its place
 */
export function readPlan(content: string, file: string): EvidencePlan {
  const { value, place } = readPlainFile(content, file, planField);
  const chips = Object.entries(value.chips).map(
    ([chip, { kind, compared, defaulted, why = {} }]): PlannedChip => ({
      name: chip,
      kind,
      compared: Object.entries(compared).map(([quantity, said]) => ({
        quantity: quantity as ComparedQuantity,
        region: "macro",
        ...(typeof said === "string" ? { figure: said } : { figure: said.figure }),
        ...(typeof said !== "string" && said.of !== undefined && { region: said.of }),
      })),
      defaulted,
      why,
    }),
  );
  return { file, chips, leftOut: value.left_out ?? {}, place };
}
