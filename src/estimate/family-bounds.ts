/** Bounds of the quantities of a family over a box of what it varies. */
import { BoundTape, type Clip } from "../formulas/bound-tape.ts";
import type { Bounds } from "../formulas/interval.ts";
import { CLOSED } from "../models/crossbar/closed/corrected.ts";
import type { SchemePair } from "../models/crossbar/contract.ts";
import type { SelectorKind } from "../models/selector/bias.ts";
import { closedBound } from "./crossbar/bound.ts";
import { hasClosedForm } from "./crossbar/ratios.ts";
import { FLOORS, possibleSupplies, ROOM } from "./family-edges.ts";
import { RATIO_NAMES, type Variant, type Wanted } from "./family-variant.ts";

const ANYTHING: Bounds = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

/**
 * What holds of a solved network whatever its data: its nodes lie between the levels that drive it,
 * so that no junction has more than the whole voltage, and its currents flow from the driven lines
 * to the sensed one. The difference that a cell makes at its column is at most its own on current:
 * what it adds raises the column, so that the others add less.
 */
const SOLVED: Readonly<Record<string, Clip>> = {
  cell_on_current: (of) => ({ low: 0, high: of("read_on_full").high }),
  cell_off_current: (of) => ({ low: 0, high: of("read_off_full").high }),
  read_margin_current: (of) => ({ low: ANYTHING.low, high: of("read_on_full").high }),
  read_line_drop: (of) => ({ low: 0, high: of("array_read_voltage").high }),
  write_line_drop: () => ({ low: 0, high: ANYTHING.high }),
  write_delivered_voltage: (of) => ({ low: 0, high: of("array_write_voltage").high }),
  disturb_voltage: () => ({ low: 0, high: ANYTHING.high }),
  half_selected_power: () => ({ low: 0, high: ANYTHING.high }),
  // The sensed end of a column is the lowest level of all, the driven end of a row the highest.
  read_on_column_current: () => ({ low: 0, high: ANYTHING.high }),
  read_off_column_current: () => ({ low: 0, high: ANYTHING.high }),
  write_leak_current: () => ({ low: 0, high: ANYTHING.high }),
};

/**
 * How far a solve may lie from its closed form, as a ratio, up to a share of the voltage that the
 * lines take. Measured, not derived: the largest errors over the published grid are 21 % of the far
 * corner and 41 % of leaks and drops (`reports/crossbar-closed-forms.md`).
 */
const NEAR = { upTo: 0.5, ratio: { low: 0.5, high: 2 } } as const;

/** The program of a variant over intervals. */
export class VariantBounds {
  readonly variant: Variant;
  /** With closed forms for the far corner. */
  readonly closed: BoundTape;
  private solving: BoundTape | undefined;

  constructor(variant: Variant) {
    this.variant = variant;
    this.closed = tapeOf(variant, {});
  }

  /** With ratios that vary, and what holds of every network. */
  get solved(): BoundTape {
    this.solving ??= tapeOf(this.variant, SOLVED);
    return this.solving;
  }
}

function tapeOf(variant: Variant, clips: Readonly<Record<string, Clip>>): BoundTape {
  const floors = Object.entries(FLOORS).map(([name, floor]) => [
    name,
    (of: (name: string) => Bounds) => ({ low: floor(of), high: ANYTHING.high }),
  ]);
  // A reference lies between two currents, of which the signal is the difference.
  const above = (signal: string) => (of: (name: string) => Bounds) => ({
    low: of(signal).low / 2,
    high: ANYTHING.high,
  });
  const reference = {
    sense_amplifier_reference_current: above("signal_current"),
    sense_amplifier_first_reference: above("first_pair_signal"),
    sense_amplifier_last_reference: above("last_pair_signal"),
  };
  // What must be above zero for a memory to work is bounded as it is in those that do.
  const working = variant.conditions.map(({ quantity }) => [
    quantity,
    (of: (name: string) => Bounds) => {
      const clip = clips[quantity]?.(of) ?? ANYTHING;
      return { low: Math.max(0, clip.low), high: clip.high };
    },
  ]);
  return new BoundTape(variant.program, {
    ...clips,
    ...reference,
    ...Object.fromEntries(floors),
    ...Object.fromEntries(working),
  });
}

export interface BoxBounds {
  readonly supplies: readonly string[];
  readonly works: boolean;
  readonly of: (name: string) => Bounds;
}

/**
 * Bounds over a box.
 *
 * @param box what its organisations have in common
 * @returns what the supplies may be, whether anything may work, and the bounds
 */
export function boxBounds(
  bounds: VariantBounds,
  box: { readonly bounds: ReadonlyMap<string, Bounds> },
  { varied }: Wanted,
  low: Float64Array,
  high: Float64Array,
): BoxBounds {
  const { variant } = bounds;
  const run = (tape: BoundTape, ratio: Bounds): ((name: string) => Bounds) => {
    for (const [k, name] of varied.entries()) tape.set(name, low[k]!, high[k]!);
    for (const [name, one] of box.bounds) tape.set(name, one.low, one.high);
    if (variant.finding !== undefined) {
      for (const name of RATIO_NAMES) tape.set(name, ratio.low, ratio.high);
    }
    tape.run();
    return (name) => tape.of(name);
  };
  let of = run(bounds.closed, { low: 1, high: 1 });
  if (variant.finding !== undefined) {
    const { upTo, drop } = dropBound(variant, of);
    if (drop > upTo) of = run(bounds.solved, drop <= NEAR.upTo && upTo > 0 ? NEAR.ratio : ANYTHING);
  }
  const [active, there] = ROOM.map(of);
  const works =
    active!.low <= there!.high &&
    variant.conditions.every(({ quantity }) => {
      const { low: least, high: most } = of(quantity);
      return most > 0 && least <= most;
    });
  return { supplies: possibleSupplies(of), works, of };
}

/**
 * The largest share of the voltage that the lines take in a box, and up to which the closed forms are
 * used; 0 where there are none.
 */
function dropBound(
  { model }: Variant,
  of: (name: string) => Bounds,
): { readonly upTo: number; readonly drop: number } {
  const { selectorKind, schemes } = model.design.cell as {
    selectorKind: SelectorKind;
    schemes: SchemePair;
  };
  const shares = (["read", "write"] as const).map(
    (at) => of(`${CLOSED}${at}_line_drop`).high / of(`array_${at}_voltage`).low,
  );
  const upTo = hasClosedForm(selectorKind, schemes) ? closedBound(schemes).upTo : 0;
  return { upTo, drop: Math.max(...shares) };
}
