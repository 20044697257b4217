// Latencies as the longest way through a graph of events. Each kind of memory says what waits for what; the sheet's
// sums are compared with the longest way, for parts whose delays are all different.
import { describe, expect, test } from "vitest";
import { accessFor } from "../../../../src/models/periphery/access.ts";
import { type Structure, terminates } from "../../../../src/models/periphery/structure.ts";
import { evaluate } from "../fixture.ts";
import { STRUCTURES } from "../structures.ts";
import { ODD } from "./paper.ts";

/** An event happens when all that it waits for has passed, each with its delay. */
type Graph = Readonly<Record<string, readonly (readonly [before: string, delay: number])[]>>;

function when(graph: Graph, event: string): number {
  return (graph[event] ?? []).reduce(
    (last, [before, delay]) => Math.max(last, when(graph, before) + delay),
    0,
  );
}

const TIMES: Readonly<Record<string, number>> = {
  ...ODD,
  self_terminated: 0,
  write_verified: 1,
  write_polarities: 2,
  set_time: 53e-9,
  reset_time: 29e-9,
  termination_share: 0.61,
  bits_per_cell: 3,
  write_pulses: 5,
  verify_pulses: 4,
  groups: 3,
  write_time: 41e-9,
  row_line_delay: 23e-12,
  column_line_delay: 37e-12,
  column_resistance: 57,
  column_capacitance: 81e-15,
};

/** Delays of the parts, none like another, none so long that others do not matter: picoseconds. */
function partDelays(names: readonly string[]): Record<string, number> {
  return Object.fromEntries(
    names.map((name, k) => [name, (50 + ((k * 37) % 101) + k / 8) * 1e-12]),
  );
}

const texts = new Map<Structure, string>();

/** Each memory also as a die and not, with divided lines and whole ones, with a code and without. */
const VARIANTS: readonly (readonly [string, Structure])[] = STRUCTURES.flatMap(([name, base]) =>
  [false, true].flatMap((die) =>
    [false, true].flatMap((divided) =>
      (["none", "single"] as const).map((correction) => {
        const words = [name, die ? "die" : "macro", divided ? "divided" : "whole", correction];
        const lines = { mainRows: divided, globalColumns: divided };
        return [words.join(", "), { ...base, die, correction, ...lines }] as const;
      }),
    ),
  ),
);

/** Amplifiers at each column also without a multiplexer, and with other supplies of their writes. */
const RESTORING: typeof VARIANTS = VARIANTS.filter(
  ([, { amplifierPerColumn }]) => amplifierPerColumn,
).flatMap(([name, base]) =>
  [false, true].flatMap((multiplexed) =>
    (["core", "pump"] as const).map(
      (writeSupply) =>
        [`${name}, ${writeSupply}, ${multiplexed}`, { ...base, multiplexed, writeSupply }] as const,
    ),
  ),
);

/** Of those, each sheet once. */
const DIFFERENT = [...STRUCTURES, ...VARIANTS, ...RESTORING].filter(([, structure], k, all) => {
  const text = textOf(structure);
  return all.findIndex(([, other]) => textOf(other) === text) === k;
});

function textOf(structure: Structure): string {
  const known = texts.get(structure) ?? JSON.stringify(accessFor(structure).formulas);
  texts.set(structure, known);
  return known;
}

describe.each(DIFFERENT)("%s", (_, structure) => {
  const sheet = accessFor(structure);
  // One list, for which the program is kept.
  const instances = [{ of: sheet }];
  const names = Object.keys(sheet.inputs)
    .filter((name) => TIMES[name] === undefined)
    .sort();
  const run = (more: Readonly<Record<string, number>>) => {
    const given = { ...TIMES, ...partDelays(names), ...more };
    return { ...given, ...evaluate(instances, given) } as Record<string, number>;
  };
  const { amplifierPerColumn = false, levels, multiplexed } = structure;
  const limited = structure.limitedWrite;

  const check = (more: Readonly<Record<string, number>>) => {
    const v = run(more);
    const has = (part: string) => sheet.inputs[`${part}_delay`] !== undefined;
    const d = (part: string) => (has(part) ? v[`${part}_delay`]! : 0);

    // A like gate's mismatch: of the threshold over the overdrive, by the power of the current's law.
    const sigma =
      v["matching_coefficient"]! /
      Math.sqrt(v["gate_width"]! * v["pair_length_ratio"]! * v["contacted_gate_pitch"]!);
    const slope = Math.max(v["overdrive"]!, v["swing_at_temperature"]! / Math.LN10);
    const path =
      (v["sense_sigmas"]! * v["drive_exponent"]! * sigma) / slope / Math.sqrt(v["timed_stages"]!);
    const guard = v["sense_guard"]! * (1 + path);

    const held: Graph = {
      bank: [
        ["clock", (structure.die ? v["pads_input_delay"]! : 0) + d("address_latch") + d("route")],
      ],
    };
    const selecting = (start: string): Graph => ({
      decoded: [[start, d("row_decoder") + d("row_main_driver")]],
      row: [["decoded", d("row_driver") + v["row_line_delay"]!]],
      switches:
        multiplexed && !amplifierPerColumn
          ? [[start, d("column_decoder") + d("column_select")]]
          : [[start, 0]],
      bias: structure.bias === undefined ? [[start, 0]] : [[start, d("column_bias")]],
      selected: [
        ["row", 0],
        ["switches", 0],
        ["bias", 0],
      ],
    });
    const column =
      v["column_line_delay"]! +
      d("column_multiplexer") +
      (amplifierPerColumn ? 0 : d("global_column"));
    const mirrors =
      structure.reference && structure.sensing === "current"
        ? v["sense_amplifier_reference_delay"]!
        : 0;
    const settles = Math.max(column, mirrors);
    const one = d("sense_amplifier");
    const between =
      d("level_sequencer") + d("level_register") + (v["sense_amplifier_recovery"] ?? 0);
    const decided = {
      none: one,
      parallel: one + d("level_encoder"),
      // Three bits: three decisions, and two pauses between them.
      successive: one + between + one + between + one,
    }[levels ?? "none"];
    const leaving =
      (amplifierPerColumn && multiplexed ? d("output_multiplexer") : 0) +
      (amplifierPerColumn && structure.globalColumns ? d("global_column") : 0) +
      d("route") +
      d("correction_decoder") +
      d("data_latch") +
      d("output_driver") +
      d("pads");

    const tile = when({ ...selecting("start"), settled: [["selected", settles]] }, "settled");
    const read: Graph = {
      ...held,
      enabled: [["bank", guard * tile]],
      decided: [["enabled", decided]],
      out: [["decided", leaving]],
    };
    const near = (name: string, wanted: number) =>
      expect(Math.abs(v[name]! / wanted - 1), `${name}: ${v[name]} for ${wanted}`).toBeLessThan(
        1e-12,
      );
    near("read_latency", when(read, "out"));

    const restored = amplifierPerColumn ? v["write_time"]! : 0;
    const recovery = has("precharge") ? d("precharge") : d("row_driver") + v["row_line_delay"]!;
    near("read_cycle", tile + decided + restored + recovery);

    const driven =
      d("write_driver") +
      d("output_multiplexer") +
      (limited ? 1.03 * v["column_resistance"]! * v["column_capacitance"]! : settles);
    const verify = structure.verify ? settles + decided : 0;
    const reads = (levels ? v["write_pulses"]! : v["verify_pulses"]!) * verify;
    const can = terminates(structure);
    const ends = can && v["self_terminated"] === 1;
    const unverified = ends || (can && v["write_verified"] === 0);
    // Cells of one row that are set wait for those that are reset, where the voltages on it are opposite.
    const [longer, shorter] = [v["set_time"]!, v["reset_time"]!].sort((x, y) => y - x);
    const both =
      structure.bias !== undefined && v["write_polarities"] === 2 && v["row_cells_written"]! > 1;
    const single = unverified ? v["write_time"]! / v["write_pulses"]! : v["write_time"]!;
    const pulses = single * (ends ? 0.61 : 1) + (unverified ? 0 : reads);
    // Groups are filled with what waits longer; a last one has both.
    const other = both ? (single * (ends ? 0.61 : 1) * shorter!) / longer! : 0;
    const write: Graph = {
      ...held,
      encoded: [["bank", d("correction_encoder")]],
      ...selecting("encoded"),
      sensed: [["selected", amplifierPerColumn ? settles + decided : 0]],
      pumped: [["sensed", d("charge_pump")]],
      // Three groups, one after another.
      first: [["pumped", driven + pulses]],
      second: [["first", driven + pulses]],
      third: [["second", driven + pulses + other]],
    };
    near("write_latency", when(write, "third"));
  };

  test("reads, cycles and writes take the longest way", () => check({}));

  if (!STRUCTURES.some(([, base]) => base === structure)) return;

  test("so they do when another part is the slowest", () => {
    for (const name of names) check({ [name]: 2.3e-9 });
    for (const name of ["row_line_delay", "column_line_delay"]) check({ [name]: 2.3e-9 });
  });

  test("so they do when pulses end by themselves, for one polarity or a single cell, and below threshold", () => {
    check({ self_terminated: 1 });
    check({ write_verified: 0 });
    check({ write_polarities: 1 });
    check({ row_cells_written: 1 });
    check({ set_time: 12e-9, reset_time: 31e-9 });
    check({ overdrive: 0.01 });
  });
});
