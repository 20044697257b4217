import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { refuse } from "../../src/errors/problem.ts";
import { Columns } from "../../src/formulas/columns.ts";
import { Graph } from "../../src/formulas/graph.ts";
import {
  assemble,
  compile,
  interpretProgram,
  type Program,
  parseFormula,
  procedure,
  type Tree,
} from "../../src/formulas/index.ts";
import { CHUNK } from "../../src/formulas/plan.ts";
import { writtenBy } from "../../src/formulas/program.ts";
import type { Kind } from "../../src/numerics/vectors/machine.ts";
import { GIVEN_QUANTITIES, INSTANCES } from "./fixtures/circuits.ts";
import { NAMES, plainTree, SEED } from "./fixtures/trees.ts";

const KINDS: readonly Kind[] = ["fastest", "loops"];

/** The outputs of sets of inputs by one machine. */
function byColumns(
  program: Program,
  names: readonly string[],
  inputs: readonly Float64Array[],
  count: number,
  kind: Kind,
): Float64Array[] {
  const graph = new Graph(program.given, program.steps);
  const nodesOf = (some: readonly string[]): number[] =>
    some.map((name) => graph.quantities.get(name)!);
  const columns = new Columns(graph, nodesOf(program.given), nodesOf(names), kind);
  const outputs = names.map(() => new Float64Array(count));
  columns.run(inputs, count, outputs, "marked", () => {});
  return outputs;
}

/** Each set alone, formula by formula. */
function oneByOne(
  program: Program,
  names: readonly string[],
  inputs: readonly Float64Array[],
  count: number,
): Float64Array[] {
  const outputs = names.map(() => new Float64Array(count));
  for (let set = 0; set < count; set++) {
    const given = new Map(program.given.map((name, k) => [name, inputs[k]![set]!]));
    const values = interpretProgram(program, given);
    for (const [k, name] of names.entries()) outputs[k]![set] = values.get(name)!;
  }
  return outputs;
}

function programOf(trees: readonly Tree[]): Program {
  const extra = trees.map((formula, i) => ({
    name: `t${i}`,
    unit: "1",
    meaning: "random",
    source: "this project",
    formula,
  }));
  const given = Object.keys(NAMES).map((name) => ({ name, unit: "1" }));
  return assemble([], given, parseFormula, extra);
}

/** Values that formulas meet, and those at which they change their ways. */
const value = fc.oneof(
  fc.double({ min: -30, max: 30, noNaN: true }),
  fc.double(),
  fc.constantFrom(0, -0, 1, -1, 2, 3, 0.5, 2.5, 700, -700, 710, 1e300, Number.NaN, 1 / 0, -1 / 0),
);

describe("columns", () => {
  test("of any formulas are those of each set alone, by either machine, to the bit", () => {
    fc.assert(
      fc.property(
        fc.array(plainTree, { minLength: 1, maxLength: 5 }),
        fc.array(fc.array(value, { minLength: 1, maxLength: 11 }), { minLength: 1 }),
        (trees, draws) => {
          const program = programOf(trees);
          const names = program.steps.flatMap(writtenBy);
          const count = 11;
          // Inputs with one value are the same for all sets; the others repeat theirs.
          const inputs = program.given.map((_, k) => {
            const own = draws[k % draws.length]!;
            return Float64Array.from({ length: count }, (_, i) => own[i % own.length]!);
          });
          const wanted = oneByOne(program, names, inputs, count);
          for (const kind of KINDS) {
            expect(byColumns(program, names, inputs, count, kind)).toEqual(wanted);
          }
        },
      ),
      { ...SEED, numRuns: 400 },
    );
  });

  test("of a design are those of each set alone, whichever inputs vary, over several chunks", () => {
    const program = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
    const names = program.steps.flatMap(writtenBy);
    const count = 2 * CHUNK + 5;
    for (const varying of [() => true, (k: number) => k % 3 === 0, (k: number) => k === 2]) {
      const inputs = program.given.map((_, k) =>
        Float64Array.from({ length: count }, (_, i) => 0.3 + k / 7 + (varying(k) ? i / 300 : 0)),
      );
      const wanted = oneByOne(program, names, inputs, count);
      for (const kind of KINDS) {
        expect(byColumns(program, names, inputs, count, kind)).toEqual(wanted);
      }
    }
  });

  test("are computed with what is the same for all sets computed once", () => {
    let runs = 0;
    const counted = procedure({
      name: "counted",
      title: "Counts its runs",
      about: "For a test.",
      source: "this project",
      inputs: { x: { unit: "1", meaning: "x" } },
      outputs: { y: { unit: "1", meaning: "y" } },
      run: (inputs, outputs) => {
        runs++;
        if (inputs[0] === 13) refuse({ code: "out-of-range", what: "thirteen" });
        outputs[0] = inputs[0]! * 2;
      },
    });
    const program = assemble([{ of: counted }], [{ name: "x", unit: "1" }], parseFormula);
    const code = compile(program);
    const column = new Float64Array(300);
    code.evaluateMany([new Float64Array(300).fill(4)], 300, [column]);
    expect([runs, column[0], column[299]]).toEqual([1, 8, 8]);
    const inputs = Float64Array.from({ length: 300 }, (_, i) => i);
    code.evaluateMany([inputs], 300, [column], "marked");
    expect(runs).toBe(301);
    expect([column[12], column[13], column[14], column[299]]).toEqual([24, Number.NaN, 28, 598]);
    expect(() => code.evaluateMany([inputs], 300, [column])).toThrow(/thirteen/);
    code.evaluateMany([new Float64Array(300).fill(13)], 300, [column], "marked");
    expect(column.every(Number.isNaN)).toBe(true);
  });

  test("keep apart programs that take turns with the machine's memory", () => {
    const first = compile(programOf([parseFormula("exp(a) + 1")]), ["t0"]);
    const second = compile(programOf([parseFormula("a * a * a - 3")]), ["t0"]);
    const inputs = Float64Array.from({ length: 20 }, (_, i) => i / 5);
    const [one, two] = [new Float64Array(20), new Float64Array(20)];
    for (let turn = 0; turn < 3; turn++) {
      first.evaluateMany([inputs], 20, [one]);
      second.evaluateMany([inputs], 20, [two]);
      expect(one[7]).toBeCloseTo(Math.exp(1.4) + 1, 13);
      expect(two[7]).toBeCloseTo(1.4 ** 3 - 3, 13);
    }
  });
});
