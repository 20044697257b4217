/** What the columns have for cells of several bits. */
import { type PartUse, type Structure, terminates } from "../structure.ts";
import { levelEncoder, levelRegister, levelSequencer } from "../tile/levels.ts";
import { parallelSenseAmplifier, successiveSenseAmplifier } from "../tile/sense-levels.ts";

/** Prefixes of `levelParts`. */
export const LEVEL_PREFIXES: readonly string[] = [
  "level_register_",
  "level_sequencer_",
  "level_encoder_",
];

/** Cells of one bit have none of it, whatever the structure provides for. */
const ifSeveral = (count: string) => `bits_per_cell > 1 ? ${count} : 0`;

/** Registers and a sequencer, or encoders; none where cells have two states. */
export function levelParts(structure: Structure): PartUse[] {
  const { levels } = structure;
  if (levels === undefined) return [];
  const ended = terminates(structure) ? "verified_share * write_pulses" : "write_pulses";
  const reads = structure.verify ? `${ended} * ` : "0 * ";
  const beside = {
    level: "tile",
    count: ifSeveral("sense_amplifiers"),
    activeRead: ifSeveral("sense_amplifiers"),
    activeWrite: ifSeveral(`${reads}row_cells_written * groups`),
    onReadPath: true,
    onWritePath: false,
  } as const;
  if (levels === "parallel") {
    const prefix = "level_encoder_";
    return [{ ...beside, name: "level encoders", prefix, sheet: levelEncoder }];
  }
  return [
    { ...beside, name: "level registers", prefix: "level_register_", sheet: levelRegister },
    {
      ...beside,
      name: "level sequencers",
      prefix: "level_sequencer_",
      sheet: levelSequencer,
      count: ifSeveral("1"),
      activeRead: ifSeveral("1"),
      activeWrite: ifSeveral(`${reads}groups`),
    },
  ];
}

/** The same part where a cell has several levels: more amplifiers or decisions, references, lines. */
export function readByLevels({ levels }: Structure): (use: PartUse) => PartUse {
  return (use) => {
    if (levels === undefined) return use;
    const successive = levels === "successive";
    switch (use.prefix) {
      case "sense_amplifier_": {
        const sheet = successive ? successiveSenseAmplifier : parallelSenseAmplifier;
        const each = "sense_amplifiers * level_references";
        const activeRead = successive ? "sense_amplifiers * bits_per_cell" : each;
        return { ...use, sheet, activeRead, ...(!successive && { count: each }) };
      }
      case "reference_":
        return {
          ...use,
          count: `${use.count} * level_references`,
          activeRead: `${use.activeRead} * level_references`,
          bind: { ...use.bind, ...(successive && { sensing_time: "sense_delay" }) },
        };
      case "data_driver_":
        return { ...use, count: "level_data_lines", activeRead: "level_data_lines" };
      case "spare_steering_":
        return { ...use, bind: { ...use.bind, sense_amplifiers: "level_data_lines" } };
      default:
        return use;
    }
  };
}
