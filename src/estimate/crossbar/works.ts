/** Whether a tile of some size works well enough, for the search of the largest. */
import { marginSigmas } from "../../models/crossbar/margin.ts";
import { pow } from "../../numerics/special/elementary.ts";
import { conditionsOf } from "../conditions.ts";
import type { MacroModel } from "../model.ts";

/**
 * Share of the standard deviations of a lone cell that a tile has to leave where that cell has
 * fewer than the wanted: its spread is no fault of the tile.
 */
const KEPT = 0.9;

const round = (value: number) => String(Number(value.toPrecision(2)));

/** What is wrong with a tile, as a clause; undefined where it works. */
export function faultOf(model: MacroModel): string | undefined {
  const values = model.nominal();
  const broken = conditionsOf(model.program).find(({ quantity }) => !(values.get(quantity)! > 0));
  if (broken !== undefined) return broken.fails;
  const least = model.design.parameters.get("least_write_delivery")!.value;
  return marginFault(values) ?? lineFault(values, least);
}

function marginFault(values: ReadonlyMap<string, number>): string | undefined {
  const sigmas = values.get("read_margin_sigmas");
  if (sigmas === undefined) return undefined;
  const wanted = values.get("sense_sigmas")!;
  const lone = loneSigmas(values);
  const least = Math.min(wanted, KEPT * lone);
  if (sigmas >= least) return undefined;
  const why = least < wanted ? `, ${round(100 * KEPT)} % of what a lone cell has` : "";
  return `the read margin falls to ${round(sigmas)} sigma, below ${round(least)}${why}`;
}

/** The margin of a cell without lines and neighbours, amplifiers sized for it likewise. */
export function loneSigmas(values: ReadonlyMap<string, number>): number {
  const of = (name: string) => values.get(name)!;
  const [on, off] = values.has("read_on_full")
    ? [of("read_on_full"), of("read_off_full")]
    : [of("cell_on_current"), of("cell_off_current")];
  if ((values.get("level_references") ?? 1) > 1) return loneLevels(values, on, off);
  const noise = of("sense_current_sigma") / of("signal_current");
  return marginSigmas(on - off, on, off, of("on_spread"), of("off_spread"), noise * (on - off));
}

/** The same for the worse of the two pairs of levels that `level_pairs` knows. */
function loneLevels(values: ReadonlyMap<string, number>, on: number, off: number): number {
  const of = (name: string) => values.get(name)!;
  const step = pow(off / on, 1 / of("level_references"));
  const crossbar = values.has("read_on_full");
  const second = crossbar ? on * step : of("second_level_current");
  const before = crossbar ? off / step : of("last_but_one_level_current");
  const sigmas = (pair: string, upper: number, lower: number, spreads: readonly string[]) => {
    const noise = of(`${pair}_sense_current_sigma`) / of(`${pair}_signal`);
    const [above, below] = spreads.map(of) as [number, number];
    const margin = upper - lower;
    return marginSigmas(margin, upper, lower, above, below, noise * margin);
  };
  return Math.min(
    sigmas("first_pair", on, second, ["on_spread", "sense_amplifier_second_level_spread"]),
    sigmas("last_pair", before, off, ["sense_amplifier_last_but_one_level_spread", "off_spread"]),
  );
}

/** Of an array whose cells have transistors: what its lines take of a write, and the leak. */
function lineFault(values: ReadonlyMap<string, number>, least: number): string | undefined {
  const lines = values.get("write_path_lines");
  if (lines === undefined) return undefined;
  const of = (name: string) => values.get(name)!;
  const drop = of("write_current") * of("column_resistance") * lines;
  const share = 1 - drop / of("write_voltage");
  if (share < least) {
    return `bit line and source line leave only ${round(100 * share)} % of the write voltage`;
  }
  const signal = values.get("least_pair_signal") ?? of("signal_current");
  if (of("column_leak_current") > signal) {
    return "the leak of a column's unselected cells exceeds the signal";
  }
  return undefined;
}
