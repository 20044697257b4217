/** How a fit's search ends, and what it refuses; minima in closed form. */
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../../src/errors/problem.ts";
import { fitLeastSquares, type Residuals } from "../../../src/numerics/index.ts";

/** Residuals that count how often they are asked for. */
function counted(residuals: Residuals) {
  const asked: number[][] = [];
  const counting: Residuals = (p) => {
    asked.push([...p]);
    return residuals(p);
  };
  return { asked, counting };
}

function refusalOf(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("at a minimum", () => {
  test("nothing is asked for but the slopes, where the residuals vanish", () => {
    const { asked, counting } = counted(([a, b]) => [a! - 3, b! + 2, a! + b! - 1]);
    const fit = fitLeastSquares(counting, [3, -2]);
    expect(fit.parameters).toEqual([3, -2]);
    expect(fit.steps).toBe(1);
    expect(asked).toHaveLength(1 + 2 * 2);
  });

  test("a cosine of 1e-12 between residuals and slopes is none, one of 1e-10 is", () => {
    // Powers of two, so that the slopes are exact: residuals of one and a little, and of minus one.
    for (const unit of [2 ** -20, 1, 2 ** 20]) {
      const search = (little: number) => {
        const residuals: Residuals = ([a]) => [unit * a! + little, unit * a! - 2];
        const { asked, counting } = counted(residuals);
        const fit = fitLeastSquares(counting, [1 / unit], { difference: 2 ** -10 });
        return { asked, moved: fit.parameters[0]! * unit - 1 };
      };
      // The cosine is half of that little.
      expect(search(2 ** -38).asked).toHaveLength(3);
      const { asked, moved } = search(2 ** -32);
      expect(asked.length).toBeGreaterThan(3);
      // Of the sum of squares a double holds no more.
      expect(moved / -(2 ** -33)).toBeCloseTo(1, 0);
    }
  });
});

describe("a parameter at an end of its range", () => {
  const pulled: Residuals = ([a, b]) => [a! - 4, a! + 1 - 0.5 * b!, b! + 3, b! + 3.5];

  test("is held at the low one as at the high one, and the others are best", () => {
    const fit = fitLeastSquares(pulled, [0, 0], { low: [-9, -1] });
    // With b = -1 the sum (a - 4)^2 + (a + 3/2)^2 is least at 5/4.
    expect(fit.parameters[1]).toBe(-1);
    expect(fit.parameters[0]).toBeCloseTo(1.25, 9);
    expect(fit.held).toEqual([false, true]);
    expect(fit.errors[1]).toBe(Number.POSITIVE_INFINITY);
    // From that end itself.
    expect(fitLeastSquares(pulled, [0, -1], { low: [-9, -1] }).held).toEqual([false, true]);
  });

  test("takes no part in the steps of the others", () => {
    const held = fitLeastSquares(pulled, [0, -1], { low: [-9, -1] });
    const without = fitLeastSquares(([a]) => pulled([a!, -1]), [0]);
    expect(held.steps).toBe(without.steps);
    expect(held.parameters[0]! / without.parameters[0]!).toBeCloseTo(1, 13);
  });

  test("is not held where it is pulled inside, or stands at its best", () => {
    const inside = fitLeastSquares(([a]) => [a! - 1, a! - 2, a! - 3], [0], { low: [0], high: [9] });
    expect(inside.parameters[0]).toBeCloseTo(2, 9);
    expect(inside.held).toEqual([false]);
    for (const range of [{ low: [0] }, { high: [0] }]) {
      // One-sided slopes of -1, 1 and 1: nothing pulls either way.
      const options = { ...range, difference: 2 ** -10 };
      const best = fitLeastSquares(([a]) => [a! - 1, a! + 1, 1], [0], options);
      expect(best.parameters).toEqual([0]);
      expect(best.held).toEqual([false]);
    }
  });
});

test("a parameter of large numbers and little effect does not end the search for another", () => {
  const residuals: Residuals = ([a, b]) => [1e-9 * a! - 1, 1e3 * (b! ** 3 - 8), 0];
  const fit = fitLeastSquares(residuals, [1e9, 1.5]);
  expect(fit.parameters[0]! / 1e9).toBeCloseTo(1, 9);
  expect(fit.parameters[1]).toBeCloseTo(2, 9);
});

describe("refusals", () => {
  const bent: Residuals = ([a]) => [Math.exp(a!) - 3, Math.exp(a!) - 5];

  test("as many steps as allowed are taken, then the numbers reached are told", () => {
    const { steps, parameters } = fitLeastSquares(bent, [0]);
    expect(parameters[0]).toBeCloseTo(Math.log(4), 9);
    expect(fitLeastSquares(bent, [0], { steps }).steps).toBe(steps);
    const early = refusalOf(() => fitLeastSquares(bent, [0], { steps: steps - 1 }));
    expect(early.code).toBe("fit-not-settled");
    expect(early.what).toBe("the fit did not settle in the allowed number of steps");
    expect(early.fix).toBe("start nearer, or fit fewer parameters");
    const two: Residuals = ([a, b]) => [...bent([a!]), ...bent([b! + 1])];
    const reached = refusalOf(() => fitLeastSquares(two, [0, 0], { steps: 1 })).got!;
    expect(reached).toMatch(/^[\d.-]+, [\d.-]+$/);
  });

  test("points too few say how many there are", () => {
    const problem = refusalOf(() => fitLeastSquares(([a, b]) => [a!, b!], [1, 2]));
    expect(problem.code).toBe("too-few-points");
    expect(problem.what).toBe("a fit of 2 parameters needs more than 2 points");
  });

  test("a parameter without effect is named, counted from one", () => {
    const problem = refusalOf(() => fitLeastSquares(([a]) => [a! - 1, a! - 2, a! - 3], [1, 2]));
    expect(problem.code).toBe("fit-undetermined");
    expect(problem.what).toBe("the points do not depend on parameter 2 of the fit");
    expect(problem.fix).toBe("leave that parameter out of the fit");
  });

  test("a start where the residuals are no numbers does not settle", () => {
    const hole: Residuals = ([a]) => [a === 1 ? Number.NaN : a! - 3, a! - 4];
    expect(refusalOf(() => fitLeastSquares(hole, [1])).code).toBe("fit-not-settled");
  });
});
