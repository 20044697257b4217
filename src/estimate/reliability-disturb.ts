/** Disturbance: how long states withstand the voltages of reads and of writes beside them. */
import type { ExtraFormula } from "../formulas/program.ts";
import { type Instance, type Procedure, procedure } from "../formulas/sheet.ts";
import { READ_DISTURB, rateFromDecades, readHold } from "../models/reliability/index.ts";
import type { SelectorKind } from "../models/selector/bias.ts";
import { requireGeometry, type SwitchGeometry } from "../models/switch/geometry.ts";
import { GEOMETRY } from "../models/switch/geometry-inputs.ts";
import { switchingTime } from "../models/switch/geometry-motion.ts";
import type { ReliabilityParts } from "./reliability-parts.ts";

const extra = (name: string, unit: string, formula: string, meaning: string, note?: string) => ({
  name,
  unit,
  formula,
  meaning,
  source: "this project",
  ...(note === undefined ? {} : { note }),
});

/** Voltages below this do nothing that a memory could live to see [V]. */
const LEAST_VOLTAGE = 1e-6;

/** Time [s] in which a voltage moves the boundary by half of its travel, whichever way is faster. */
export function holdTime(g: SwitchGeometry, voltage: number): number {
  const middle = (g.least_gap + g.most_gap) / 2;
  const v = Math.max(Math.abs(voltage), LEAST_VOLTAGE);
  return Math.min(
    switchingTime(g, v, g.most_gap, middle),
    switchingTime(g, -v, g.least_gap, middle),
  );
}

/** How long a switch from its geometry withstands a voltage. */
function geometryHold(what: "read" | "write"): Procedure {
  const voltage = what === "read" ? "read_voltage" : "switch_disturb_voltage";
  const output = what === "read" ? "read_hold_time" : "write_hold_time";
  return procedure({
    name: `geometry_${what}_hold`,
    title:
      what === "read"
        ? "How long a state of a switch from geometry withstands the read voltage"
        : "How long a state of a switch from geometry withstands the writes beside it",
    about:
      "The boundary's motion integrated at the voltage, error-controlled to 1e-8, until it has " +
      "moved by half of its travel, towards either end: the same law as for the pulses, no slope " +
      "to be stated.",
    source: "ionic",
    inputs: { ...GEOMETRY, [voltage]: { unit: "V", meaning: "voltage of the disturbance" } },
    outputs: { [output]: { unit: "s", meaning: "time for which a state withstands it" } },
    run(inputs, outputs) {
      const names = [...Object.keys(GEOMETRY), voltage];
      const given = Object.fromEntries(names.map((name, i) => [name, inputs[i]!]));
      const g = given as unknown as SwitchGeometry;
      requireGeometry(g);
      outputs[0] = holdTime(g, given[voltage]!);
    },
  });
}

export const geometryReadHold = geometryHold("read");
export const geometryWriteHold = geometryHold("write");

const SLOWDOWN: Readonly<Record<"law" | "geometry", ExtraFormula>> = {
  law: extra(
    "disturb_slowdown",
    "1",
    "sinh(min(set_voltage, reset_voltage) / rate_voltage) / sinh(switch_disturb_voltage / rate_voltage)",
    "switching time at the disturb voltage over that at the write voltage",
    "sinh law of the switching rate",
  ),
  geometry: extra(
    "disturb_slowdown",
    "1",
    "write_hold_time / max(set_time, reset_time)",
    "write pulses that a state withstands at the disturb voltage",
    "each as long as the longer pulse",
  ),
};

/** A voltage that disturbs nothing, so that ratios stay finite where a selector takes all [V]. */
const TINY = "0.001 * disturb_voltage";

const behind = (formula: string, note: string): ExtraFormula =>
  extra(
    "switch_disturb_voltage",
    "V",
    formula,
    "largest voltage of a half-selected switch in a write",
    note,
  );

const BEHIND_SELECTOR = behind(
  `max(min(set_voltage, reset_voltage) - selector_margin_disturb, ${TINY})`,
  "what the selector leaves of the junction's: the lower write voltage minus the margin to it",
);

/** What of the voltage of a half-selected junction the switch gets behind its selector. */
const AT_SWITCH: Readonly<Record<SelectorKind, ExtraFormula>> = {
  none: behind("disturb_voltage", "the switch is the whole junction"),
  diode: BEHIND_SELECTOR,
  tunnel: BEHIND_SELECTOR,
  mixed_conductor: BEHIND_SELECTOR,
  threshold: behind(
    "min(disturb_voltage, max(disturb_off_current * off_resistance, " +
      `disturb_on_current * on_resistance, ${TINY}))`,
    "the selector is off and lets its leak through, which makes this voltage at the switch",
  ),
  complementary: behind("disturb_voltage", "the off one of the two switches gets nearly all"),
};

const WRITES: readonly ExtraFormula[] = [
  extra(
    "disturb_accesses",
    "1",
    "disturb_slowdown / disturb_margin",
    "writes beside it that a state survives",
  ),
  extra(
    "disturb_rewrites",
    "1",
    "disturb_accesses / (rows + columns - 2)",
    "full rewrites of the tile that a state survives, cell by cell",
  ),
];

/** What reads and writes beside a state do to it. */
export function disturbRecipe({ rate, disturb }: ReliabilityParts): {
  readonly instances: readonly Instance[];
  readonly extra: readonly ExtraFormula[];
} {
  if (rate === undefined) return { instances: [], extra: [] };
  const geometry = rate === "geometry";
  return {
    instances: geometry
      ? [{ of: geometryReadHold }, ...(disturb ? [{ of: geometryWriteHold }] : [])]
      : [{ of: readHold }],
    extra: [
      ...(rate === "decades" ? [rateFromDecades] : []),
      READ_DISTURB,
      ...(disturb ? [AT_SWITCH[disturb], SLOWDOWN[geometry ? "geometry" : "law"], ...WRITES] : []),
    ],
  };
}
