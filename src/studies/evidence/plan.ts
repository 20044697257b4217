import { refuse } from "../../errors/problem.ts";

/** Quantities of an estimate that evidence compares, with the words for people. */
export const COMPARED_QUANTITIES = {
  cell_area: "cell area",
  macro_area: "chip, array or macro area",
  array_efficiency: "array efficiency",
  read_latency: "read latency",
  write_latency: "write latency",
  read_energy_per_bit: "read energy per bit",
  standby_power: "standby power",
} as const;
export type ComparedQuantity = keyof typeof COMPARED_QUANTITIES;

/** What of one chip is compared with its study. */
export interface PlannedChip {
  readonly name: string;
  readonly kind: string;
  /** Quantity of the estimate → figure of the chip, or `cell_share`: capacity × cell area / area. */
  readonly compared: readonly (readonly [quantity: ComparedQuantity, figure: string])[];
  /** What the paper does not state and the study therefore leaves to the defaults. */
  readonly defaulted: string;
  /** Why a quantity is off by more than two. */
  readonly why: Readonly<Record<string, string>>;
}

export interface EvidencePlan {
  readonly chips: readonly PlannedChip[];
  /** Chips that are not compared, with the reason. */
  readonly leftOut: Readonly<Record<string, string>>;
}

type Plain = Readonly<Record<string, unknown>>;
const mapping = (value: unknown): Plain => (value ?? {}) as Plain;

/**
 * The plan from the plain values of its file.
 * @throws TenfoldError `unknown-format`, `unknown-word`
 */
export function planFrom(file: Plain): EvidencePlan {
  const format = "tenfold.evidence/1";
  if (file["format"] !== format) {
    refuse({
      code: "unknown-format",
      what: "this is no plan of the evidence",
      got: String(file["format"]),
      expected: format,
    });
  }
  const chips = Object.entries(mapping(file["chips"])).map(([name, one]) =>
    plannedChip(name, mapping(one)),
  );
  return { chips, leftOut: mapping(file["left_out"]) as Record<string, string> };
}

function plannedChip(name: string, one: Plain): PlannedChip {
  const compared = Object.entries(mapping(one["compared"])).map(([quantity, figure]) => {
    if (!(quantity in COMPARED_QUANTITIES)) {
      refuse({
        code: "unknown-word",
        what: `the evidence of ${name} compares an unknown quantity`,
        got: quantity,
        expected: Object.keys(COMPARED_QUANTITIES).join(", "),
      });
    }
    return [quantity as ComparedQuantity, String(figure)] as const;
  });
  return {
    name,
    kind: String(one["kind"]),
    compared,
    defaulted: String(one["defaulted"]),
    why: mapping(one["why"]) as Record<string, string>,
  };
}
