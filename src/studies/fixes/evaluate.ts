/** One design with some fixes, at the nominal parameters and over draws. */
import type { Catalogue } from "../../catalogue/index.ts";
import { TenfoldError } from "../../errors/problem.ts";
import { conditionsOf } from "../../estimate/conditions.ts";
import { macroModelOf } from "../../estimate/crossbar/auto.ts";
import type { Draws } from "../../estimate/draws.ts";
import type { MacroModel } from "../../estimate/model.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Study } from "../../schema/study.ts";
import { COSTS, GOALS, type GoalQuantity } from "./figures.ts";
import type { Fix } from "./options.ts";

/** What fixes are tried on. */
export interface FixMatter {
  readonly study: Study;
  readonly design: string;
  readonly catalogue: Catalogue;
  readonly parse: Parser;
}

/** A design with some fixes; costs and goals in the order of `COSTS` and of the stated goals. */
export interface FixedDesign {
  readonly fixes: readonly Fix[];
  readonly costs: readonly number[];
  /** Undefined where the design has no such figure. */
  readonly gains: readonly (number | undefined)[];
  /** The same over draws, NaN where it does not work. @param wanted goals by their places */
  draw(
    draws: Draws,
    wanted: readonly number[],
  ): {
    readonly costs: Float64Array[];
    readonly gains: (Float64Array | undefined)[];
  };
}

/** @returns why it can't be, a sentence, where it can't */
export function fixedDesign(
  matter: FixMatter,
  fixes: readonly Fix[],
  goals: readonly GoalQuantity[],
): FixedDesign | string {
  const { study, design, catalogue, parse } = matter;
  const changed = fixes.reduce((one, fix) => fix.change(one), study.designs[design]!);
  try {
    const model = macroModelOf(
      { ...study, designs: { ...study.designs, [design]: changed } },
      design,
      catalogue,
      parse,
    );
    const nominal = model.nominal();
    const broken = conditionsOf(model.program).find(
      ({ quantity }) => !(nominal.get(quantity)! > 0),
    );
    if (broken !== undefined) return broken.fails;
    return evaluated(model, nominal, fixes, goals);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return error.problems[0]!.what;
  }
}

function evaluated(
  model: MacroModel,
  nominal: ReadonlyMap<string, number>,
  fixes: readonly Fix[],
  goals: readonly GoalQuantity[],
): FixedDesign {
  const spread = fixes.some(({ group }) => group === "spreading");
  const has = (name: string | undefined): name is string =>
    name !== undefined && model.program.quantities.has(name);
  const costNames = COSTS.map((cost) => [
    cost.name,
    ...(spread && has(cost.spreading) ? [cost.spreading] : []),
    ...(model.design.reliability?.parts.scrub === "stated" && has(cost.scrub) ? [cost.scrub] : []),
  ]);
  const goalNames = goals.map((goal) =>
    [...(spread && goal.spread ? [goal.spread] : []), ...goal.names].find(has),
  );
  return {
    fixes,
    costs: costNames.map((names) => names.reduce((sum, name) => sum + nominal.get(name)!, 0)),
    gains: goalNames.map((name) => (name === undefined ? undefined : nominal.get(name)!)),
    draw(draws, wanted) {
      const asked = goalNames.filter((name, g) => has(name) && wanted.includes(g)) as string[];
      const samples = model.sample(draws, [...new Set([...costNames.flat(), ...asked])]);
      return {
        costs: costNames.map((names) =>
          samples
            .get(names[0]!)!
            .map((value, i) =>
              names.slice(1).reduce((sum, name) => sum + samples.get(name)![i]!, value),
            ),
        ),
        gains: goalNames.map((name) => (name === undefined ? undefined : samples.get(name))),
      };
    },
  };
}

/** The goals that a design states, in the order of tables. */
export function statedGoals(
  study: Study,
  design: string,
): readonly (GoalQuantity & { wanted: number })[] {
  const goal = study.designs[design]!.reliability?.goal ?? {};
  return GOALS.flatMap((one) => {
    const wanted = goal[one.key];
    return wanted === undefined ? [] : [{ ...one, wanted: wanted.value }];
  });
}
