/** Designs as functions of what a sweep or a search varies. */
import type { Catalogue } from "../../catalogue/index.ts";
import { TenfoldError } from "../../errors/problem.ts";
import { conditionsOf } from "../../estimate/conditions.ts";
import { isSearched, macroModelOf } from "../../estimate/crossbar/auto.ts";
import { type ResolvedDesign, resolveDesign } from "../../estimate/design.ts";
import { DesignFamily, type Reasons, withValues } from "../../estimate/family.ts";
import type { SpreadColumns } from "../../estimate/family-spread.ts";
import { withOrganisation } from "../../estimate/layouts.ts";
import type { MacroModel } from "../../estimate/model.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Setting } from "../../schema/settings.ts";
import type { Study } from "../../schema/study.ts";
import type { Variable } from "./axes.ts";

/** A study with other values at some of its places. */
export type Reopen = (settings: readonly Setting[]) => {
  readonly study: Study;
  readonly catalogue: Catalogue;
};

/** Many points of one design at once. */
export interface PointFamily {
  /**
   * @param inputs one column in SI per varied name
   * @param outputs receives one column in SI per quantity; NaN where there is no figure
   * @returns why there is none, by point
   */
  evaluate(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
    spread?: SpreadColumns,
  ): Reasons;
  /** See `DesignFamily.bound`; absent where nothing is known of a box. */
  bound?: DesignFamily["bound"];
  /** The model of one point. */
  model(values: readonly number[]): MacroModel;
}

/** The families of one combination of settings, by design; a text is why there is none. */
export type Families = (settings: readonly Setting[]) => ReadonlyMap<string, PointFamily | string>;

/** What varies, and what is asked of each point. */
export interface FamilyRequest {
  readonly designs: readonly string[];
  readonly varied: readonly string[];
  readonly quantities: readonly string[];
}

/** Combinations of settings whose programs are kept. */
const MOST_KEPT = 64;

/** The families of combinations of settings; the last few are kept. */
export function familiesOf(reopen: Reopen, parse: Parser, request: FamilyRequest): Families {
  const kept = new Map<string, ReadonlyMap<string, PointFamily | string>>();
  return (settings) => {
    const key = JSON.stringify(settings);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = new Map<string, PointFamily | string>();
    const failed = (error: unknown): string => {
      if (!(error instanceof TenfoldError)) throw error;
      return error.problems[0]!.what;
    };
    try {
      const { study, catalogue } = reopen(settings);
      for (const name of request.designs) {
        try {
          made.set(name, familyOf(study, name, catalogue, parse, request));
        } catch (error) {
          made.set(name, failed(error));
        }
      }
    } catch (error) {
      for (const name of request.designs) made.set(name, failed(error));
    }
    if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value!);
    kept.set(key, made);
    return made;
  };
}

/** Values of a setting that are tried before a sweep or a search begins. */
const TRIED = 16;

/**
 * Refuses a place of the study that no value can stand at: with every point impossible for the same
 * reason, that is a mistake and no result.
 *
 * @param path where the section lists the names; @param names as they stand there
 */
export function checkSettings(
  study: Study,
  path: string,
  variables: readonly Variable[],
  reopen: Reopen,
  names: readonly string[],
): void {
  for (const [k, { name, kind, texts }] of variables.entries()) {
    if (kind !== "setting") continue;
    const failures: TenfoldError[] = [];
    const some = texts.slice(0, TRIED);
    for (const value of some) {
      try {
        reopen([{ path: name, value }]);
        break;
      } catch (error) {
        if (!(error instanceof TenfoldError)) throw error;
        failures.push(error);
      }
    }
    if (failures.length < some.length) continue;
    const at = `${path}/${(names[k] ?? name).replaceAll("~", "~0").replaceAll("/", "~1")}`;
    throw new TenfoldError(
      failures[0]!.problems.map((one) => ({ ...one, path: at, place: study.place(at) })),
    );
  }
}

/** The family of one design. */
export function familyOf(
  study: Study,
  name: string,
  catalogue: Catalogue,
  parse: Parser,
  { varied, quantities }: FamilyRequest,
): PointFamily {
  const design = resolveDesign(study, name, catalogue);
  const searched = isSearched(study.designs[name]!, design, varied);
  const one = { study, design, varied, quantities };
  if (!searched) return new DesignFamily(one, parse);
  return new SearchedFamily(one, catalogue, parse);
}

/** A design whose tile the tool chooses: each point has the largest tile that works there. */
class SearchedFamily implements PointFamily {
  private readonly of: ConstructorParameters<typeof DesignFamily>[0];
  private readonly catalogue: Catalogue;
  private readonly parse: Parser;

  constructor(
    of: ConstructorParameters<typeof DesignFamily>[0],
    catalogue: Catalogue,
    parse: Parser,
  ) {
    this.of = of;
    this.catalogue = catalogue;
    this.parse = parse;
  }

  evaluate(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
    spread?: SpreadColumns,
  ): Reasons {
    for (const column of outputs) column.fill(Number.NaN, 0, count);
    return Array.from({ length: count }, (_, i) => {
      try {
        return this.point(
          inputs.map((column) => column[i]!),
          i,
          outputs,
          spread,
        );
      } catch (error) {
        if (!(error instanceof TenfoldError)) throw error;
        return error.problems[0]!.what;
      }
    });
  }

  model(values: readonly number[]): MacroModel {
    return this.found(values).model;
  }

  /** The model with the largest tile, and the study with the rest of the organisation. */
  private found(values: readonly number[]): { readonly model: MacroModel; readonly study: Study } {
    const { design, varied } = this.of;
    const study = withOrganisation(this.of.study, design.name, varied, values);
    const change = (one: ResolvedDesign) => withValues(one, varied, values);
    return {
      model: macroModelOf(study, design.name, this.catalogue, this.parse, change),
      study,
    };
  }

  private point(
    values: readonly number[],
    i: number,
    outputs: readonly Float64Array[],
    spread: SpreadColumns | undefined,
  ): string | undefined {
    const { quantities } = this.of;
    const { model, study } = this.found(values);
    const nominal = model.nominal();
    const broken = conditionsOf(model.program).find(
      ({ quantity }) => !(nominal.get(quantity)! > 0),
    );
    if (broken !== undefined) return broken.fails;
    // The design with the tile that was found is computed as any other.
    const own = new DesignFamily(
      { study, design: model.design, varied: [], quantities },
      this.parse,
    );
    const one = outputs.map(() => new Float64Array(1));
    const single = spread && {
      ...spread,
      low: outputs.map(() => Float64Array.of(Number.NaN)),
      high: outputs.map(() => Float64Array.of(Number.NaN)),
      working: Float64Array.of(Number.NaN),
    };
    const [reason] = own.evaluate([], 1, one, single);
    for (const [q, column] of outputs.entries()) {
      column[i] = one[q]![0]!;
      if (spread === undefined || single === undefined) continue;
      spread.low[q]![i] = single.low[q]![0]!;
      spread.high[q]![i] = single.high[q]![0]!;
      spread.working[i] = single.working[0]!;
    }
    return reason;
  }
}
