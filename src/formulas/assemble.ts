/** Many uses of models to one flat program. */

import { nearestWord } from "../errors/nearest.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";
import { sameDimension } from "../quantities/dimension.ts";
import { dimensionOf } from "../quantities/unit.ts";
import { constantOf } from "./constants.ts";
import { expand, expandExtra, nameProblems, type Parser, type Part } from "./expand.ts";
import { inOrder } from "./order.ts";
import type { ExtraFormula, GivenQuantity, Program, Quantity } from "./program.ts";
import type { Instance } from "./sheet.ts";

/**
 * Assembles a program: names resolved, everything defined once, ordered.
 *
 * @param instances uses of sheets and procedures (see `Instance` for how names are resolved)
 * @param given what comes from outside, with SI unit texts
 * @param parse text to tree: `parseFormula`, or a table made at build time
 * @param extra formulas with global names that stand in no sheet
 * @returns the program, in an order that depends only on the arguments
 * @throws TenfoldError with all of: `formula-cycle`, `quantity-missing`, `quantity-twice`,
 *   `quantity-unit`, `quantity-name`, `model-binding`
 */
export function assemble(
  instances: readonly Instance[],
  given: readonly GivenQuantity[],
  parse: Parser,
  extra: readonly ExtraFormula[] = [],
): Program {
  const problems: Problem[] = [];
  const parts: Part[] = [];
  for (const instance of instances) {
    const expansion = expand(instance, parse);
    problems.push(...expansion.problems);
    parts.push(...expansion.parts);
  }
  for (const formula of extra) {
    const part = expandExtra(formula, parse);
    problems.push(...nameProblems(formula.name, part.who));
    parts.push(part);
  }
  const quantities = new Map<string, Quantity>();
  const owners = new Map<string, string>();
  for (const one of given) {
    problems.push(...nameProblems(one.name, "given"));
    add({ meaning: "", ...one, by: "given", from: "", prefix: "" }, "given");
  }
  for (const part of parts) for (const quantity of part.writes) add(quantity, part.who);

  function add(quantity: Quantity, who: string): void {
    const { name } = quantity;
    const first = owners.get(name);
    if (first !== undefined) problems.push(twice(name, first, who));
    else {
      owners.set(name, who);
      quantities.set(name, quantity);
    }
  }

  const all = [...constantParts(parts, quantities), ...parts];
  for (const part of all) problems.push(...readingProblems(part, quantities, owners));
  const { ordered, cycles } = inOrder(all);
  problems.push(...cycles);
  if (problems.length > 0) throw new TenfoldError(problems);
  return {
    given: given.map(({ name }) => name),
    steps: ordered.map(({ step }) => step),
    quantities,
  };
}

/** The constants that are read and that nobody defines; they join the quantities. */
function constantParts(parts: readonly Part[], quantities: Map<string, Quantity>): Part[] {
  const made: Part[] = [];
  const unknown = new Set<string>();
  for (const { reads } of parts) {
    for (const { name } of reads) if (!quantities.has(name)) unknown.add(name);
  }
  for (const name of unknown) {
    const constant = constantOf(name);
    if (!constant) continue;
    const { value, unit, meaning, symbol, source } = constant;
    const tree = { kind: "number", value } as const;
    const known = { name, unit, meaning, symbol, source, tree };
    const quantity: Quantity = { ...known, by: "constant", from: "constants", prefix: "" };
    quantities.set(name, quantity);
    made.push({
      step: { kind: "formula", name, tree, reads: [], size: 1 },
      reads: [],
      writes: [quantity],
      who: "constants",
    });
  }
  return made;
}

function readingProblems(
  part: Part,
  quantities: ReadonlyMap<string, Quantity>,
  owners: ReadonlyMap<string, string>,
): Problem[] {
  return part.reads.flatMap(({ name, unit }): Problem[] => {
    const provider = quantities.get(name);
    if (!provider) {
      const near = nearestWord(name, quantities.keys());
      return [
        {
          code: "quantity-missing",
          what: `${part.who} needs "${name}", which nothing gives or computes`,
          got: name,
          ...(near === undefined ? {} : { nearest: near }),
          ...(unit === undefined ? {} : { expected: `a quantity in ${unit}` }),
        },
      ];
    }
    if (unit === undefined || unit === provider.unit || sameUnit(unit, provider.unit)) return [];
    const owner = owners.get(name) ?? provider.from;
    return [
      {
        code: "quantity-unit",
        what: `${part.who} reads "${name}" in ${unit}, ${owner} has it in ${provider.unit}`,
        got: provider.unit,
        expected: unit,
      },
    ];
  });
}

function sameUnit(left: string, right: string): boolean {
  return sameDimension(dimensionOf(left), dimensionOf(right));
}

function twice(name: string, first: string, second: string): Problem {
  return {
    code: "quantity-twice",
    what: `"${name}" is defined twice: by ${first} and by ${second}`,
    got: name,
    fix: "give one of them a prefix",
  };
}
