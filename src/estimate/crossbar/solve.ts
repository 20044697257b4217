/** Reads and writes of a tile's far corner by solving its whole network. */
import { fail } from "../../errors/problem.ts";
import type { Scheme, SchemePair, SolvedOutput } from "../../models/crossbar/contract.ts";
import { type Question, WORST } from "../../models/crossbar/patterns.ts";
import type { Law } from "../../models/junction.ts";
import {
  type CrossbarSolution,
  type JunctionKind,
  type StartVoltages,
  solveCrossbar,
} from "../../numerics/crossbar/index.ts";
import { aroundLaw } from "./selected.ts";
import { cornerProblem, farCorner, kindsOfPattern, type Tile } from "./tile.ts";

/** A tile and what its far corner is asked. SI. */
export interface CornerCase {
  readonly tile: Tile;
  readonly schemes: SchemePair;
  readonly readVoltage: number;
  readonly writeVoltage: number;
  /** What the cell draws at its write voltage. */
  readonly writeCurrent: number;
  /** Laws of the selected junction in a read, and as elements where the solver has them. */
  readonly selected: Readonly<Record<"on" | "off", { law: Law; element?: JunctionKind }>>;
}

export type CornerResult = Readonly<Record<SolvedOutput, number>>;

/** Share of the write voltage below which drivers are not raised: the array fails anyway. */
const HOPELESS = 0.5;
/** Relative accuracy of the raised voltage. */
const RAISED_TO = 1e-6;
const MOST_RAISES = 12;

/** Junctions of the largest network that is solved: 1.3 GB. */
export const MOST_JUNCTIONS = 2 ** 22;

/** Solves and counts. */
export interface Work {
  solves: number;
  linearSolves: number;
}

class Corner {
  private readonly corner: CornerCase;
  private readonly work: Work;
  readonly at: number;
  /** The last solution of each question, and the voltage that it had: the next one is near. */
  private readonly last = new Map<Question, { voltage: number; solution: CrossbarSolution }>();

  constructor(corner: CornerCase, work: Work) {
    this.corner = corner;
    this.work = work;
    this.at = farCorner(corner.tile);
  }

  solve(scheme: Scheme, question: Question, voltage: number, selected: JunctionKind) {
    const { tile } = this.corner;
    const kindOf = kindsOfPattern(tile, WORST[scheme][question]);
    const problem = cornerProblem(tile, scheme, voltage, selected, kindOf);
    const before = this.last.get(question);
    const solution = solveCrossbar(
      problem,
      before === undefined ? {} : { start: scaled(before.solution, voltage / before.voltage) },
    );
    this.last.set(question, { voltage, solution });
    this.work.solves += 1;
    this.work.linearSolves += solution.linearSolves;
    if (!solution.converged) {
      fail({
        code: "not-converged",
        what: `the network of a tile of ${tile.rows} rows and ${tile.columns} columns was not solved`,
        got: `a residual of ${solution.residual}`,
      });
    }
    return solution;
  }

  read(state: "on" | "off"): CrossbarSolution {
    const { tile, schemes, readVoltage, selected } = this.corner;
    const { law, element } = selected[state];
    const one = (kind: JunctionKind) =>
      this.solve(schemes.read, state === "on" ? "read_on" : "read_off", readVoltage, kind);
    if (element !== undefined) return one(element);
    const wires = (tile.columns - 1) * tile.rowSegment + (tile.rows - 1) * tile.columnSegment;
    const found = aroundLaw(law, readVoltage, wires, tile.columns, (resistance) =>
      one({ element: { law: "ohmic", resistance } }),
    );
    return (
      found ??
      fail({ code: "not-converged", what: "the selected junction of a read was not found" })
    );
  }

  /** The voltage at the driver that gives the far corner its write voltage, and the solutions. */
  write() {
    const { schemes, writeVoltage: wanted, writeCurrent } = this.corner;
    const cell: JunctionKind = {
      element: { law: "ohmic", resistance: wanted / writeCurrent },
    };
    const one = (question: Question, voltage: number) =>
      this.solve(schemes.write, question, voltage, cell);
    const plain = one("delivery", wanted);
    const delivered = plain.junctionVoltages[this.at]!;
    let edge = wanted * (wanted / delivered);
    let raised = plain;
    if (delivered >= HOPELESS * wanted) {
      let before = { edge: wanted, got: delivered };
      for (let k = 0; k < MOST_RAISES; k++) {
        raised = one("delivery", edge);
        const got = raised.junctionVoltages[this.at]!;
        if (Math.abs(got / wanted - 1) <= RAISED_TO) break;
        const next = edge + ((wanted - got) * (edge - before.edge)) / (got - before.got);
        before = { edge, got };
        edge = next;
      }
    }
    const same = schemes.write !== "grounded";
    const power = same ? raised : one("power", delivered >= HOPELESS * wanted ? edge : wanted);
    const disturb = one("disturb", delivered >= HOPELESS * wanted ? edge : wanted);
    return { delivered, edge, raised, power, disturb };
  }

  /** Current of the unselected junctions of the selected row, or column. */
  leak(solution: CrossbarSolution, line: "row" | "column"): number {
    const { rows, columns } = this.corner.tile;
    let sum = 0;
    if (line === "row") for (let j = 0; j < this.at; j++) sum += solution.junctionCurrents[j]!;
    else
      for (let k = this.at + columns; k < rows * columns; k += columns)
        sum += solution.junctionCurrents[k]!;
    return Math.max(0, sum);
  }
}

function scaled({ rowVoltages, columnVoltages }: CrossbarSolution, factor: number): StartVoltages {
  return {
    rowVoltages: rowVoltages.map((v) => v * factor),
    columnVoltages: columnVoltages.map((v) => v * factor),
  };
}

function unselectedPower({ junctionVoltages, junctionCurrents }: CrossbarSolution, at: number) {
  let sum = 0;
  junctionVoltages.forEach((v, k) => {
    if (k !== at) sum += v * junctionCurrents[k]!;
  });
  return sum;
}

function largestUnselected({ junctionVoltages }: CrossbarSolution, at: number) {
  let most = 0;
  junctionVoltages.forEach((v, k) => {
    if (k !== at) most = Math.max(most, Math.abs(v));
  });
  return most;
}

/**
 * Solves the networks of a tile: two reads and the writes, each with the data that are worst for
 * what is asked.
 *
 * @param work counts what was solved
 * @throws TenfoldError `not-converged`, `too-large`
 */
export function solveCorner(
  corner: CornerCase,
  work: Work = { solves: 0, linearSolves: 0 },
): CornerResult {
  refuseHuge(corner.tile);
  const tile = new Corner(corner, work);
  const { at } = tile;
  const on = tile.read("on");
  const off = tile.read("off");
  const { delivered, edge, raised, power, disturb } = tile.write();
  return {
    cell_on_current: on.junctionCurrents[at]!,
    cell_off_current: off.junctionCurrents[at]!,
    read_on_column_current: on.columnCurrents[at]!,
    read_off_column_current: off.columnCurrents[at]!,
    column_leak_current: tile.leak(off, "column"),
    row_leak_current: Math.max(tile.leak(on, "row"), tile.leak(off, "row")),
    read_line_drop: corner.readVoltage - on.junctionVoltages[at]!,
    write_line_drop: edge - corner.writeVoltage,
    write_delivered_voltage: delivered,
    write_leak_current: tile.leak(raised, "row"),
    half_selected_power: unselectedPower(power, at),
    disturb_voltage: largestUnselected(disturb, at),
  };
}

/**
 * The whole network while the far corner is read, with the data that are worst for that state.
 *
 * @throws TenfoldError `not-converged`, `too-large`
 */
export function solveRead(corner: CornerCase, state: "on" | "off"): CrossbarSolution {
  refuseHuge(corner.tile);
  return new Corner(corner, { solves: 0, linearSolves: 0 }).read(state);
}

function refuseHuge({ rows, columns }: Tile): void {
  if (rows * columns <= MOST_JUNCTIONS) return;
  fail({
    code: "too-large",
    what: `a network of ${rows} rows and ${columns} columns is too large to be solved`,
    expected: `at most ${MOST_JUNCTIONS} junctions`,
  });
}
