/** Whether a tile of some size works well enough, for the search of the largest. */
import { marginSigmas } from "../../models/crossbar/margin.ts";
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
  const noise = of("sense_current_sigma") / of("signal_current");
  return marginSigmas(on - off, on, off, of("on_spread"), of("off_spread"), noise * (on - off));
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
  if (of("column_leak_current") > of("signal_current")) {
    return "the leak of a column's unselected cells exceeds the signal";
  }
  return undefined;
}
