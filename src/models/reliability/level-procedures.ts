/** The reads of cells of so many levels as procedures. */

import { type InputDefinition, type Procedure, procedure } from "../../formulas/sheet.ts";
import { pow } from "../../numerics/special/elementary.ts";
import { aged, readWord, type WrittenLevel } from "./aged-levels.ts";
import { leastErrorReferences, type ReadPath } from "./level-reads.ts";

const LEVEL = {
  current: ["A", "median current of level"],
  spread: ["1", "standard deviation of the logarithm of the current of level"],
  drift: ["1", "exponent by which the resistance rises with time, of level"],
  drift_deviation: ["1", "standard deviation of that exponent, of level"],
} as const;
type LevelFigure = keyof typeof LEVEL;
const FIGURES = Object.keys(LEVEL) as LevelFigure[];

/** Name of a figure of a level; levels count from 1, the one of the least resistance. */
export function levelName(figure: LevelFigure | "resistance", level: number): string {
  return `level_${figure}_${level}`;
}

/** Name of the reference between a level and the next; they count from 1. */
export function referenceName(below: number): string {
  return `reference_${below}`;
}

const SHARED: Readonly<Record<string, InputDefinition>> = {
  read_leak: { unit: "A", meaning: "what the other cells of a column may add, worst pattern" },
  sense_current_sigma: { unit: "A", meaning: "standard deviation of offset and noise" },
  sense_offset_share: { unit: "1", meaning: "standard deviation of offset over the reference" },
  sense_shot_current: { unit: "A", meaning: "variance of shot noise over the reference" },
  drift_decades: { unit: "1", meaning: "ln of the time since the write over the drift's start" },
};

const count = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

function levelInputs(levels: number): Readonly<Record<string, InputDefinition>> {
  const each = count(levels).flatMap((level) =>
    FIGURES.map((figure) => {
      const [unit, meaning] = LEVEL[figure];
      return [levelName(figure, level), { unit, meaning: `${meaning} ${level}` }] as const;
    }),
  );
  return Object.fromEntries(each);
}

/** Levels and read path from the first inputs of both procedures. */
function readInputs(levels: number, inputs: Float64Array) {
  const written = count(levels).map((_, i): WrittenLevel => {
    const [current, spread, drift, driftDeviation] = inputs.subarray(
      i * FIGURES.length,
    ) as unknown as number[];
    return {
      current: current!,
      spread: spread!,
      drift: drift!,
      driftDeviation: driftDeviation!,
    };
  });
  const at = levels * FIGURES.length;
  const [leak, sigma, offset, shot, decades] = inputs.subarray(at) as unknown as number[];
  const path: ReadPath = {
    leak: leak!,
    // Of two levels the amplifier has one reference, at which its noise is stated.
    noise: levels === 2 ? () => sigma! : (t) => Math.sqrt(pow(offset! * t, 2) + shot! * t),
  };
  return { levels: aged(written, decades!), path, rest: at + Object.keys(SHARED).length };
}

const referenceOutputs = (levels: number) =>
  Object.fromEntries(
    count(levels - 1).map((k) => [
      referenceName(k),
      { unit: "A", meaning: `reference current between the levels ${k} and ${k + 1}` },
    ]),
  );

const known = new Map<string, Procedure>();

function once(key: string, make: () => Procedure): Procedure {
  const found = known.get(key) ?? make();
  known.set(key, found);
  return found;
}

/** The references of least error between so many levels, at a time since the write. */
export function levelReferences(levels: number): Procedure {
  return once(`references ${levels}`, () =>
    procedure({
      name: `level_references_${levels}`,
      title: `References between ${levels} levels`,
      about:
        "Where the densities of two neighbouring levels are equal: the least error between them. " +
        "Lognormal currents, the leak of the other cells in the worst pattern, normal offset and " +
        "noise at the reference. Found inside a bracket to nine digits.",
      source: "detection",
      inputs: { ...levelInputs(levels), ...SHARED },
      outputs: referenceOutputs(levels),
      run(inputs, outputs) {
        const read = readInputs(levels, inputs);
        outputs.set(leastErrorReferences(read.levels, read.path));
      },
    }),
  );
}

/** What a word of such cells is read with. */
export function levelReads(levels: number): Procedure {
  return once(`reads ${levels}`, () =>
    procedure({
      name: `level_reads_${levels}`,
      title: `Errors of ${levels} levels`,
      about:
        "Tails of every level beyond every reference, bits by the reflected binary code; then " +
        "cells that have lost their level, each read as any other; then the code. The mean over " +
        "what all references of a word have in common is taken last, since their errors come " +
        "together. Means by the trapezoidal rule to 1e-9; tails are never one minus something.",
      source: "digital-comm",
      inputs: {
        ...levelInputs(levels),
        ...SHARED,
        ...referenceOutputs(levels),
        reference_offset: { unit: "1", meaning: "by what share all references stand off" },
        reference_spread: { unit: "1", meaning: "standard deviation of that share" },
        changed_share: { unit: "1", meaning: "share of cells that have lost their level" },
        code_length: { unit: "1", meaning: "bits of a coded word" },
        corrected_errors: { unit: "1", meaning: "errors of a word that are corrected" },
      },
      outputs: {
        bit_error_rate: { unit: "1", meaning: "probability that a bit is read wrong, uncorrected" },
        word_failure: { unit: "1", meaning: "probability that more errors than are corrected" },
        symbol_error: { unit: "1", meaning: "probability that a level is read as another" },
        ...Object.fromEntries(
          count(levels - 1).map((k) => [
            `boundary_share_${k}`,
            { unit: "1", meaning: `share of the errors between the levels ${k} and ${k + 1}` },
          ]),
        ),
      },
      run(inputs, outputs) {
        const read = readInputs(levels, inputs);
        const references = Array.from(inputs.subarray(read.rest, read.rest + levels - 1));
        const [offset, deviation, changed, codeLength, corrected] = inputs.subarray(
          read.rest + levels - 1,
        ) as unknown as number[];
        const found = readWord({
          levels: read.levels,
          references,
          path: read.path,
          offset: offset!,
          deviation: deviation!,
          changed: changed!,
          codeLength: codeLength!,
          corrected: corrected!,
        });
        outputs.set([found.bitWithChanged, found.word, found.symbol, ...found.shares]);
      },
    }),
  );
}
