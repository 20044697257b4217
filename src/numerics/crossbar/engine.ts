/** The arrays of one solve and what can be done with them. */
import { coarsenAll, coarserSize } from "./coarsen.ts";
import { type DirectSolve, factorDirectly, MOST_NODES, nodesOf } from "./direct.ts";
import { junctionModel } from "./junctions.ts";
import { Arena } from "./kernels/instance.ts";
import { ARRAYS, factor, makeLevel, sizeOf } from "./level.ts";
import { dot, type StepResult, solveStep } from "./linear.ts";
import type { CrossbarProblem, SolveOptions } from "./problem.ts";
import { kirchhoff, largestTerminal, makeSegments } from "./residual.ts";
import { largestError, roundedOff, sizesOf, stirred } from "./rounding.ts";
import { givenPotentials, makePotentials, networkOf, startPotentials } from "./state.ts";

/** Lines on the shorter side from which on coarser levels pay. */
const COARSEN_FROM = 24;
/** Currents below this part of the largest are nothing in Kirchhoff's law. */
const NOTHING = 1e-18;

/** The last digits of potentials that are carried as pairs of doubles, with a margin for their sums. */
const LAST_DIGIT = 2 ** -100;

/** Of linear solves that are to be as exact as they get. */
const EXACTLY = 1e-13;
const MOST_ITERATIONS = 20000;

export type Engine = ReturnType<typeof makeEngine>;

/** Sets up a problem at its start potentials. */
export function makeEngine(problem: CrossbarProblem, options: SolveOptions) {
  const network = networkOf(problem);
  const { shape } = network;
  const size = shape.m * shape.n;
  const bytes = 8 * size;
  const arena = new Arena(8 * (sizeOf(shape, ARRAYS.twice + 5) + coarserSize(shape)));
  const { kernels } = arena;
  const wires = { row: network.rowResistance, column: network.columnResistance };
  const g = arena.doubles(size);
  const level = makeLevel(arena, shape, wires, network.ends, g, true);
  const model = junctionModel(problem, shape, g.view);
  const x = makePotentials(arena, shape);
  if (options.start === undefined) startPotentials(network, x);
  else givenPotentials(network, x, options.start);
  const segments = makeSegments(arena, network);
  const vectors = { r: level.r, s: level.h, ...level.again! };
  const stepU = arena.doubles(size);
  // Like the voltages and currents, what is missing is wanted between linear solves only.
  const missing = { u: level.z, w: level.r };
  // Voltages and currents are wanted between linear solves only, the search directions within.
  const v = vectors.p;
  const current = vectors.q;
  const coarsened =
    options.method === undefined
      ? Math.min(problem.rows, problem.columns) >= COARSEN_FROM
      : options.method === "coarsened";
  const mark = arena.mark();
  const mostAround = surroundings(network);
  let prepared = false;
  let direct: DirectSolve | undefined;

  return {
    network,
    model,
    /** Whether the start potentials are those of a network like this one. */
    near: options.start !== undefined,
    x,
    v,
    current,
    slopes: g,
    /** Currents and slopes of all junctions at given voltages. */
    evaluateAt: model.evaluate,
    /** The voltage at which the junction at k carries about a given current. */
    voltageFor: model.voltageFor,
    readVoltages(): void {
      kernels.junctionVoltages(x.uh.at, x.ul.at, x.wh.at, x.wl.at, v.at, bytes);
    },
    /** Junction voltages, currents and slopes at the present potentials. */
    evaluate(): void {
      kernels.junctionVoltages(x.uh.at, x.ul.at, x.wh.at, x.wl.at, v.at, bytes);
      if (model.linear) kernels.ohmicCurrents(g.at, v.at, current.at, bytes);
      else {
        current.view.fill(0);
        model.evaluate(v.view, current.view, g.view);
      }
    },
    /** Kirchhoff's law at the present currents: fills what is missing, returns the largest relative error. */
    judge(): number {
      return kirchhoff(kernels, network, segments, x, current, missing, this.nothing());
    },
    /** Currents that count as nothing [A]: hardly any part of the largest, or below the last digits of potentials. */
    nothing(): number {
      const most = Math.max(largest(current.view), largestTerminal(network, x));
      const best = mostAround < Infinity ? mostAround : largest(g.view);
      return Math.max(NOTHING * most, LAST_DIGIT * best * highestSource(network), Number.MIN_VALUE);
    },
    /**
     * Kirchhoff's law where currents count as nothing that rounding stirs up (`rounding.ts`).
     *
     * @param error that a node with such a current may have
     */
    judgeRounded(error: number): number {
      const junctions = { v: v.view, current: current.view, slope: g.view };
      this.evaluate();
      const sizes = sizesOf(network, x, junctions);
      const off = roundedOff(network, x, junctions, sizes);
      missing.u.view.set(off.u);
      missing.w.view.set(off.w);
      this.solveExactly();
      const steps = { u: stepU.view, w: vectors.w.view };
      this.evaluate();
      const stir = stirred(network, x, junctions, steps);
      this.judge();
      return largestError(
        network,
        x,
        { u: missing.u.view, w: missing.w.view },
        sizes,
        stir,
        this.nothing(),
        error,
      );
    },
    /** Back to the start potentials, for other source voltages on the same terminals. */
    restart(): void {
      startPotentials(network, x);
    },
    /** Factors the linear network of the present slopes; once will do where they are constant. */
    prepare(): void {
      if (prepared && model.linear) return;
      prepared = true;
      factor(level);
      arena.release(mark);
      if (coarsened) coarsenAll(arena, level);
    },
    /** Solves for the step that supplies what is missing. */
    solve(tolerance: number, maxIterations: number): StepResult {
      stepU.view.set(missing.u.view);
      return solveStep(level, stepU, vectors, tolerance, maxIterations);
    },
    /**
     * The same as exactly as it gets, by elimination where the network is not too large for it.
     *
     * @returns iterations
     */
    solveExactly(): number {
      if (nodesOf(network) > MOST_NODES) {
        this.prepare();
        return this.solve(EXACTLY, MOST_ITERATIONS).iterations;
      }
      if (direct === undefined || !model.linear) direct = factorDirectly(network, g.view);
      stepU.view.fill(0);
      vectors.w.view.fill(0);
      direct({ u: missing.u.view, w: missing.w.view }, { u: stepU.view, w: vectors.w.view });
      return 0;
    },
    /** Power in the junctions at the voltages and currents of now [W]. */
    power(): number {
      return dot(v.view, current.view);
    },
    /** What is missing now, projected on the step [W]: minus the slope of the co-content along it. */
    along(): number {
      return dot(missing.u.view, stepU.view) + dot(missing.w.view, vectors.w.view);
    },
    /**
     * Replaces the slopes by the chords current / voltage, but none above what the wires and terminals conduct: they
     * take over the voltage long before.
     */
    useChords(): void {
      const slope = g.view;
      for (let k = 0; k < size; k++) {
        const chord = current.view[k]! / v.view[k]!;
        slope[k] = Math.min(chord > 0 ? chord : slope[k]!, mostAround);
      }
    },
    /** Adds a multiple of the step to the potentials. */
    advance(factor: number): void {
      kernels.advance(x.uh.at, x.ul.at, stepU.at, bytes, factor);
      kernels.advance(x.wh.at, x.wl.at, vectors.w.at, bytes, factor);
    },
    shape,
    size,
  };
}

/** The largest source voltage, which no potential passes [V]. */
function highestSource({ sources }: ReturnType<typeof networkOf>): number {
  return Math.max(...Object.values(sources).map(largest));
}

/** The largest finite conductance of a segment or terminal [S]. */
function surroundings(network: ReturnType<typeof networkOf>): number {
  let most = 0;
  const note = (g: number) => {
    if (g < Infinity && g > most) most = g;
  };
  note(1 / network.rowResistance);
  note(1 / network.columnResistance);
  for (const side of Object.values(network.ends)) for (const g of side) note(g);
  return most > 0 ? most : Infinity;
}

function largest(values: Float64Array): number {
  let most = 0;
  for (let k = 0; k < values.length; k++) {
    const size = Math.abs(values[k]!);
    if (size > most) most = size;
  }
  return most;
}
