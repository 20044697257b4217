import { refuse } from "../../errors/problem.ts";
import { log } from "../../numerics/special/elementary.ts";
import type { Compared } from "./compare.ts";
import { COMPARED_QUANTITIES, type ComparedQuantity } from "./plan.ts";
import { quantityError } from "./sample.ts";
import { WITHIN_OF } from "./summary.ts";

/** What an earlier version of the models predicted of the same published figures. */
export interface Snapshot {
  /** When and of what, for a heading. */
  readonly label: string;
  /** The version that was run, as its repository names it. */
  readonly commit: string;
  /** What was changed in the physics after it. */
  readonly changed: readonly string[];
  readonly ratios: readonly PastRatio[];
}

export interface PastRatio {
  readonly chip: string;
  readonly kind: string;
  readonly quantity: string;
  readonly ratio: number;
  readonly recalled: boolean;
}

/** One quantity then and now, over the figures that both have. */
export interface QuantityChange {
  readonly quantity: ComparedQuantity;
  readonly figures: number;
  readonly before: Standing;
  readonly now: Standing;
}

export interface Standing {
  readonly median: number;
  /** Share of the figures within `within`. */
  readonly share: number;
  readonly within: number;
}

export interface FigureChange {
  readonly chip: string;
  readonly quantity: ComparedQuantity;
  readonly before: number;
  readonly now: number;
}

export interface Change {
  readonly label: string;
  readonly commit: string;
  readonly changed: readonly string[];
  readonly quantities: readonly QuantityChange[];
  /** Figures whose ratio moved by a tenth or more. */
  readonly moved: readonly FigureChange[];
  /** Chips that only one of the two has. */
  readonly gone: readonly string[];
  readonly come: readonly string[];
}

const FORMAT = "tenfold.ratios/1";
const MOVED = 1.1;

/** Digits of a version by which files and words name it. */
export const VERSION_DIGITS = 7;

/**
 * A snapshot from its text, which a script writes and nobody changes.
 *
 * @param changed what was changed after a version, by its first digits
 * @throws TenfoldError `unknown-format`
 */
export function readSnapshot(
  text: string,
  file: string,
  changed: Readonly<Record<string, readonly string[]>>,
): Snapshot {
  const { format, label, commit, ratios } = JSON.parse(text) as Kept;
  if (format !== FORMAT) {
    refuse({
      code: "unknown-format",
      what: `${file} holds no ratios of an earlier version`,
      got: format,
      expected: FORMAT,
    });
  }
  return { label, commit, ratios, changed: changed[commit.slice(0, VERSION_DIGITS)] ?? [] };
}

interface Kept extends Omit<Snapshot, "changed"> {
  readonly format: string;
}

/** A snapshot against the ratios of now. */
export function changeSince(snapshot: Snapshot, rows: readonly Compared[]): Change {
  const { label, commit, changed, ratios } = snapshot;
  const key = ({ chip, quantity }: { chip: string; quantity: string }) => `${chip} ${quantity}`;
  const past = new Map(ratios.map((one) => [key(one), one]));
  const common = rows.flatMap((now) => {
    const before = past.get(key(now));
    return before === undefined ? [] : [{ now, before }];
  });
  const quantities = Object.keys(COMPARED_QUANTITIES) as ComparedQuantity[];
  const there = new Set(rows.map(key));
  return {
    label,
    commit,
    changed,
    quantities: quantities.flatMap((quantity) => {
      const of = common.filter(({ now }) => now.quantity === quantity);
      if (of.length === 0) return [];
      return [
        {
          quantity,
          figures: of.length,
          before: standing(
            quantity,
            of.map(({ before }) => before),
          ),
          now: standing(
            quantity,
            of.map(({ now }) => now),
          ),
        },
      ];
    }),
    moved: common
      .filter(({ now, before }) => Math.abs(log(now.ratio / before.ratio)) >= log(MOVED))
      .map(({ now: { chip, quantity, ratio }, before }) => ({
        chip,
        quantity,
        before: before.ratio,
        now: ratio,
      })),
    gone: ratios.filter((one) => !there.has(key(one))).map(words),
    come: rows.filter((one) => !past.has(key(one))).map(words),
  };
}

function words({ chip, quantity }: { chip: string; quantity: string }): string {
  const label = COMPARED_QUANTITIES[quantity as ComparedQuantity]?.label ?? quantity;
  return `${chip} (${label})`;
}

type Ratio = Pick<PastRatio, "ratio" | "recalled" | "kind">;

function standing(quantity: ComparedQuantity, rows: readonly Ratio[]): Standing {
  const within = WITHIN_OF[quantity];
  const near = rows.filter(({ ratio }) => Math.abs(log(ratio)) <= log(within));
  return { median: quantityError(rows).all.median, share: near.length / rows.length, within };
}
