import type { Catalogue } from "../catalogue/index.ts";
import { type Reference, sourcesOf } from "../catalogue/index.ts";
import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import { macroModelOf } from "../estimate/crossbar/auto.ts";
import type { MacroModel } from "../estimate/model.ts";
import { type Derivation, derive } from "../formulas/derive.ts";
import type { Parser } from "../formulas/expand.ts";
import type { Study } from "../schema/study.ts";

/** One quantity of one design, derived. */
export interface Explanation {
  readonly design: string;
  readonly derivation: Derivation;
  readonly model: MacroModel;
}

/**
 * Derives a quantity down to parameters.
 *
 * @param name any quantity of the design's program, reported or inner
 * @param designName the study's first design that is not the baseline, unless given
 * @param depth steps below the quantity; all unless given
 * @throws TenfoldError `unknown-design`, `unknown-word` with the nearest quantity
 */
export function explainQuantity(
  study: Study,
  catalogue: Catalogue,
  parse: Parser,
  name: string,
  designName?: string,
  depth?: number,
): Explanation {
  const names = Object.keys(study.designs);
  const design = designName ?? names.find((one) => one !== study.baseline) ?? names[0]!;
  if (!names.includes(design)) {
    refuseWord("unknown-design", `the study has no design \`${design}\``, design, names);
  }
  const model = macroModelOf(study, design, catalogue, parse);
  const known = [...model.program.quantities.keys()];
  if (!known.includes(name)) {
    refuseWord("unknown-word", `\`${design}\` has no quantity \`${name}\``, name, known);
  }
  return { design, model, derivation: derive(model.program, everything(model), name, depth) };
}

/** The nominal figures, with those of parameters that no formula of the design reads. */
function everything(model: MacroModel): ReadonlyMap<string, number> {
  const values = new Map(model.nominal());
  for (const { name, value } of model.design.parameters.all()) {
    if (!values.has(name)) values.set(name, value);
  }
  return values;
}

function refuseWord(code: string, what: string, got: string, known: readonly string[]): never {
  const nearest = nearestWord(got, known);
  return refuse({
    code,
    what,
    got,
    expected: known.length > 12 ? "one of its quantities" : known.join(", "),
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** The references of every value and formula that the designs of a study use. */
export function studySources(
  study: Study,
  catalogue: Catalogue,
  parse: Parser,
): readonly Reference[] {
  const models = Object.keys(study.designs).map((name) =>
    macroModelOf(study, name, catalogue, parse),
  );
  const formulas = models.flatMap(({ program }) =>
    [...program.quantities.values()].flatMap(({ name, source, by }) =>
      by === "given" || source === undefined ? [] : [{ name, source }],
    ),
  );
  return sourcesOf(
    models.flatMap(({ parameters }) => parameters),
    catalogue.sources(),
    formulas,
  );
}
