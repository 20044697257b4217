import type { Catalogue } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { resolveDesign } from "../../estimate/design.ts";
import { MacroModel } from "../../estimate/model.ts";
import { dimensionOfTree } from "../../formulas/dimensions.ts";
import type { Parser } from "../../formulas/expand.ts";
import { type Expression, evaluateExpression } from "../../formulas/expression.ts";
import { type Bounds, boundCondition, boundTree } from "../../formulas/interval.ts";
import { dimensionText } from "../../quantities/dimension.ts";
import type { OrganiseSection } from "../../schema/organise.ts";
import type { Setting } from "../../schema/settings.ts";
import type { Study } from "../../schema/study.ts";
import { studyExpression } from "../located.ts";
import { axisOf, type Variable } from "../sweep/axes.ts";
import { checkSettings, familiesOf, type PointFamily, type Reopen } from "../sweep/families.ts";
import { meets, unitsOf } from "../sweep/plan.ts";
import { designOf } from "../uncertainty/targets.ts";
import type { SearchSpace } from "./search.ts";

/** What shall be small, or large. */
export interface Aim {
  readonly text: string;
  readonly unit: string;
  readonly sense: "minimise" | "maximise";
  readonly expression: Expression;
}

/** A search with everything looked up. */
export interface OrganisePlan {
  readonly study: Study;
  readonly design: string;
  readonly variables: readonly Variable[];
  readonly aims: readonly Aim[];
  readonly conditions: readonly { readonly text: string; readonly expression: Expression }[];
  readonly total: number;
  readonly space: SearchSpace;
  /** The model of one point. */
  model(places: readonly number[]): MacroModel;
  /** Why points that were computed are no organisation, the most frequent reason first. */
  obstacles(): readonly Obstacle[];
}

/** Something that kept points from being organisations: a reason, or a condition of the study. */
export interface Obstacle {
  readonly text: string;
  readonly points: number;
}

const MOST_POINTS = 2 ** 40;
/** Keys of a design that may vary by their own name. */
const DESIGN_KEYS = ["error_correction", "bias", "technology"];
/** What stands below such a key of a design may vary by its path in the design. */
const DESIGN_GROUPS = /^(tile|cell|overrides|wires|bias|error_correction|reliability)\./;
/** Parameters that stand elsewhere in a design than their name says. */
const ORGANISATION_PATHS: Readonly<Record<string, string>> = {
  rows: "tile.rows",
  columns: "tile.columns",
  decks: "tile.decks",
  column_share: "tile.column_share",
};

/** The section `organise:` of a study. @throws TenfoldError `missing-key` */
export function organiseSection(study: Study): OrganiseSection {
  if (study.organise !== undefined) return study.organise as unknown as OrganiseSection;
  return refuse({
    code: "missing-key",
    what: "the study has no section `organise`",
    place: study.place(""),
    fix: "add `organise:` with `vary:` and `minimise:`, such as `minimise: [macro_area]`",
  });
}

/** @throws TenfoldError with places, for names, values and expressions that can't be */
export function planOrganise(
  reopen: Reopen,
  parse: Parser,
  request: { readonly design?: string | undefined } = {},
): OrganisePlan {
  const { study, catalogue } = reopen([]);
  const section = organiseSection(study);
  const model = modelOf(study, catalogue, parse, request.design ?? section.design);
  const design = model.design.name;
  const units = unitsOf([model]);
  const variables = Object.entries(section.vary).map(([name, statement]) => {
    const path = `/organise/vary/${name}`;
    const place = placeOf(name, design);
    return sorted(axisOf(study, path, place, statement, units).variables[0]!);
  });
  const sizes = variables.map(({ kind, values, texts }) =>
    kind === "parameter" ? values.length : texts.length,
  );
  const total = sizes.reduce((a, b) => a * b, 1);
  const readable = new Map<string, string>();
  for (const { name, unit } of model.program.quantities.values()) readable.set(name, unit);
  for (const { name, kind, unit } of variables) if (kind === "parameter") readable.set(name, unit);
  const aims = aimsOf(study, section, readable);
  if (aims.length === 0 || total > MOST_POINTS) {
    refuse({
      code: aims.length === 0 ? "missing-key" : "too-large",
      what: aims.length === 0 ? "the search has no aim" : `the search has ${total} points`,
      place: study.place("/organise"),
      fix: "add `minimise:` or `maximise:` with at least one quantity",
    });
  }
  const conditions = (section.where ?? []).map((text, i) => ({
    text,
    expression: studyExpression(study, `/organise/where/${i}`, text, "condition", readable),
  }));
  const named = new Set(variables.map(({ name }) => name));
  const asked = [...aims, ...conditions].flatMap(({ expression }) => [...expression.names.keys()]);
  const quantities = [
    ...new Set(asked.filter((name) => model.program.quantities.has(name) && !named.has(name))),
  ];
  const settings = (places: readonly number[]): Setting[] =>
    variables.flatMap(({ name, kind, texts }, a) =>
      kind === "setting" ? [{ path: name, value: texts[places[a]!]! }] : [],
    );
  const varied = variables.filter(({ kind }) => kind === "parameter").map(({ name }) => name);
  checkSettings(study, "/organise/vary", variables, reopen, Object.keys(section.vary));
  const families = familiesOf(reopen, parse, { designs: [design], varied, quantities });
  const familyOf = (places: readonly number[]) => families(settings(places)).get(design)!;
  const space = new OrganiseSpace({ variables, sizes, aims, conditions, quantities }, familyOf);
  return {
    study,
    design,
    variables,
    aims,
    conditions,
    total,
    space,
    obstacles: () => space.obstacles(),
    model: (places) => {
      const family = familyOf(places);
      if (typeof family === "string") throw new Error("no model of a point that can't be");
      const values = variables.flatMap(({ kind, values: own }, a) =>
        kind === "parameter" ? [own[places[a]!]!] : [],
      );
      return family.model(values);
    },
  };
}

/** A varied name as a parameter or a place of the study: a design's own paths go below it. */
function placeOf(name: string, design: string): string {
  const organised = Object.keys(ORGANISATION_PATHS).find((one) => ORGANISATION_PATHS[one] === name);
  if (organised !== undefined) return organised;
  const own = DESIGN_KEYS.includes(name) || DESIGN_GROUPS.test(name);
  return own ? `designs.${design}.${name}` : name;
}

function modelOf(study: Study, catalogue: Catalogue, parse: Parser, name: string | undefined) {
  const names = Object.keys(study.designs);
  const wanted = name ?? names.find((one) => one !== study.baseline) ?? names[0]!;
  if (!names.includes(wanted)) designOf(study, [], wanted, "/organise/design");
  return new MacroModel(resolveDesign(study, wanted, catalogue), parse);
}

/** Rising and each once, so that a run of places is a range of values. */
function sorted(variable: Variable): Variable {
  if (variable.kind === "setting") return { ...variable, texts: [...new Set(variable.texts)] };
  return { ...variable, values: Float64Array.from(new Set(variable.values)).sort() };
}

function aimsOf(study: Study, section: OrganiseSection, units: ReadonlyMap<string, string>): Aim[] {
  return (["minimise", "maximise"] as const).flatMap((sense) =>
    (section[sense] ?? []).map((text, i) => {
      const path = `/organise/${sense}/${i}`;
      const expression = studyExpression(study, path, text, "value", units);
      const { body } = expression;
      const tree = body.kind === "value" ? body.tree : undefined;
      const unit =
        tree?.kind === "symbol"
          ? units.get(tree.name)!
          : dimensionText(dimensionOfTree(tree!, units));
      return { text, unit, sense, expression };
    }),
  );
}

interface Parts {
  readonly variables: readonly Variable[];
  readonly sizes: readonly number[];
  readonly aims: readonly Aim[];
  readonly conditions: OrganisePlan["conditions"];
  readonly quantities: readonly string[];
}

class OrganiseSpace implements SearchSpace {
  readonly sizes: readonly number[];
  readonly aims: number;
  private readonly parts: Parts;
  private readonly conditions: readonly Expression[];
  private readonly familyOf: (places: readonly number[]) => PointFamily | string;
  private readonly reasons = new Map<string, number>();

  constructor(parts: Parts, familyOf: (places: readonly number[]) => PointFamily | string) {
    this.sizes = parts.sizes;
    this.aims = parts.aims.length;
    this.parts = parts;
    this.conditions = parts.conditions.map(({ expression }) => expression);
    this.familyOf = familyOf;
  }

  evaluate(points: readonly (readonly number[])[]): (readonly number[] | undefined)[] {
    const results: (readonly number[] | undefined)[] = new Array(points.length).fill(undefined);
    const groups = new Map<PointFamily, number[]>();
    for (const [i, places] of points.entries()) {
      const family = this.familyOf(places);
      if (typeof family === "string") {
        this.count(family);
        continue;
      }
      const group = groups.get(family);
      if (group === undefined) groups.set(family, [i]);
      else group.push(i);
    }
    for (const [family, own] of groups) {
      const inputs = this.columns(own.map((i) => points[i]!));
      const outputs = this.parts.quantities.map(() => new Float64Array(own.length));
      const reasons = family.evaluate(inputs, own.length, outputs);
      for (const [k, i] of own.entries()) {
        const reason = reasons[k];
        if (reason === undefined) results[i] = this.scored(points[i]!, outputs, k);
        else this.count(reason);
      }
    }
    return results;
  }

  bound(
    from: readonly number[],
    to: readonly number[],
  ): readonly number[] | "impossible" | undefined {
    const { variables, aims } = this.parts;
    const settled = variables.every(({ kind }, a) => kind === "parameter" || from[a] === to[a]);
    if (!settled) return undefined;
    const family = this.familyOf(from);
    if (typeof family === "string") {
      this.count(family);
      return "impossible";
    }
    const ends = [from, to].map((places) =>
      Float64Array.from(this.columns([places]), (column) => column[0]!),
    );
    const bounds = family.bound?.(ends[0]!, ends[1]!);
    if (bounds === undefined || bounds === "impossible") return bounds;
    const unknown: Bounds = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
    const lookUp = (name: string): Bounds => {
      const place = variables.findIndex((one) => one.kind === "parameter" && one.name === name);
      if (place < 0) return bounds(name);
      const { values } = variables[place]!;
      return { low: values[from[place]!]!, high: values[to[place]!]! };
    };
    for (const { body } of this.conditions) {
      if (body.kind !== "value" && boundCondition(body, lookUp) === false) return "impossible";
    }
    return aims.map(({ expression: { body }, sense }) => {
      const { low, high } = body.kind === "value" ? boundTree(body.tree, lookUp) : unknown;
      return sense === "minimise" ? low : -high;
    });
  }

  obstacles(): Obstacle[] {
    const all = [...this.reasons].map(([text, points]) => ({ text, points }));
    return all.sort((a, b) => b.points - a.points);
  }

  private count(reason: string): void {
    this.reasons.set(reason, (this.reasons.get(reason) ?? 0) + 1);
  }

  /** Settings are cut first, since nothing can be said of several; then the widest ratio. */
  width(axis: number, from: number, to: number): number {
    const { kind, values } = this.parts.variables[axis]!;
    if (kind === "setting") return Number.POSITIVE_INFINITY;
    const [low, high] = [values[from]!, values[to]!];
    return low > 0 ? high / low : 2 + (to - from);
  }

  private columns(points: readonly (readonly number[])[]): Float64Array[] {
    return this.parts.variables.flatMap(({ kind, values }, a) =>
      kind === "parameter" ? [Float64Array.from(points, (places) => values[places[a]!]!)] : [],
    );
  }

  private scored(
    places: readonly number[],
    outputs: readonly Float64Array[],
    k: number,
  ): readonly number[] | undefined {
    const { variables, quantities, aims } = this.parts;
    const known = new Map<string, number>();
    for (const [a, { name, kind, values }] of variables.entries()) {
      if (kind === "parameter") known.set(name, values[places[a]!]!);
    }
    for (const [q, name] of quantities.entries()) known.set(name, outputs[q]![k]!);
    const lookUp = (name: string): number | undefined => known.get(name);
    for (const [c, one] of this.conditions.entries()) {
      if (meets([one], lookUp)) continue;
      this.count(this.parts.conditions[c]!.text);
      return undefined;
    }
    return aims.map(({ expression, sense }) => {
      const value = evaluateExpression(expression, lookUp) as number;
      return sense === "minimise" ? value : -value;
    });
  }
}
