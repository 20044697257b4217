/** From a name with overrides to everything that a model reads of a device or process. */

import { type Problem, TenfoldError } from "../errors/problem.ts";
import type { Procedure, Sheet } from "../formulas/sheet.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { EntryUse } from "../schema/field.ts";
import { ALTERNATIVES, type Alternative } from "./alternatives.ts";
import { defaultParameter } from "./defaults.ts";
import type { Parameters } from "./entry.ts";
import type { Field } from "./fields/field.ts";
import {
  completeSpreads,
  geometryGives,
  geometryMissing,
  geometryModels,
  isGeometry,
  spreadProblems,
} from "./geometry.ts";
import { KIND, type Kind } from "./kinds.ts";
import { type Find, type Merged, mergeLayers } from "./layers.ts";
import { magneticProblems } from "./magnetic.ts";
import { cautionsOf, physicalProblems } from "./physics.ts";

export interface Resolved {
  readonly kind: Kind;
  /** The name of the entry, or the path of an inline one. */
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly variant?: string;
  /** The entries that it is laid over, the nearest first. */
  readonly chain: readonly string[];
  /** By field. */
  readonly parameters: Parameters;
  /**
   * Fields that are computed from other fields, each by its sheet, whose names are those of the
   * fields.
   */
  readonly sheets: readonly Sheet[];
  /** The same for what is no closed formula. */
  readonly procedures: readonly Procedure[];
  /** The fields that nobody gave. */
  readonly defaulted: readonly string[];
  /** Sentences that a user should read. */
  readonly cautions: readonly string[];
}

type Values = Record<string, Parameter>;

/**
 * Resolves a node: layers, then what is the same as something else, then alternatives and defaults,
 * then checks.
 * @param context quantities that fields may be the same as, such as `feature` of the technology
 * @throws TenfoldError `missing-key`, `off-below-on`, `out-of-range`, `supply-below-threshold`,
 *   `conflicting-keys`, `from-cycle`, `unknown-word`
 */
export function resolveNode(
  kind: Kind,
  node: string | EntryUse,
  context: Parameters,
  find: Find,
): Resolved {
  const whole: EntryUse = typeof node === "string" ? { from: node, values: {}, path: node } : node;
  const merged = mergeLayers(kind, whole, find);
  const { variant } = merged;
  const fields = Object.entries(KIND[kind].fields).filter(([, field]) => has(field, variant));
  const alternatives = ALTERNATIVES.filter((one) => one.kind === kind && has(one, variant));
  const values: Values = { ...merged.values };
  takeOver(fields, values, context);
  const geometry = kind === "switch" && isGeometry(values);
  const computed = geometry
    ? new Map<string, Alternative>()
    : computeFromGiven(alternatives, fields, values);
  completeSpreads(values, whole.path);
  const known = new Set<string>(geometry ? geometryGives(values) : computed.keys());
  const defaulted = takeDefaults(kind, merged, fields, values, known);
  const built = kind === "switch" ? geometryModels(values) : { sheets: [], procedures: [] };
  const models = [...computed.values()].flatMap(({ sheet, also = [] }) => [sheet, ...also]);
  const problems = [
    ...(geometry ? geometryMissing(whole.path, values, defaulted) : []),
    ...(kind === "switch" ? spreadProblems(whole.path, values) : []),
    ...(kind === "switch"
      ? magneticProblems(
          whole.path,
          values,
          (name) => values[name] !== undefined || known.has(name),
        )
      : []),
    ...missing(kind, whole.path, fields, values, known),
    ...physicalProblems(kind, whole.path, values),
  ];
  if (problems.length > 0) throw new TenfoldError(problems);
  return {
    kind,
    name: typeof node === "string" ? node : whole.path,
    title: whole.title ?? merged.entry?.title ?? whole.path,
    about: whole.about ?? merged.entry?.about ?? "Given by the study itself.",
    ...(variant === undefined ? {} : { variant }),
    chain: merged.chain,
    parameters: values,
    sheets: [...models.filter((one) => one.kind === "sheet"), ...built.sheets],
    procedures: [...models.filter((one) => one.kind === "procedure"), ...built.procedures],
    defaulted,
    cautions: cautionsOf(kind, merged, values),
  };
}

function has(of: { readonly variants?: readonly string[] }, variant: string | undefined): boolean {
  return of.variants === undefined || (variant !== undefined && of.variants.includes(variant));
}

/** A field that is the same as another one has its value and its draws. */
function takeOver(fields: readonly [string, Field][], values: Values, context: Parameters): void {
  for (const [name, { sameAs }] of fields) {
    if (sameAs === undefined || values[name] !== undefined) continue;
    const other = values[sameAs] ?? context[sameAs];
    if (other !== undefined) values[name] = { ...other, name };
  }
}

/**
 * What the given values determine, in the order of the alternatives, one from another: the last
 * need of an alternative marks it, the others may be defaults.
 */
function computeFromGiven(
  alternatives: readonly Alternative[],
  fields: readonly [string, Field][],
  values: Values,
): Map<string, Alternative> {
  const fallback = new Set(fields.filter(([, field]) => field.default).map(([name]) => name));
  const computed = new Map<string, Alternative>();
  const known = (name: string) => values[name] !== undefined || computed.has(name);
  for (const one of alternatives) {
    if (known(one.gives) || values[one.needs.at(-1)!] === undefined) continue;
    if (!one.needs.every((name) => known(name) || fallback.has(name))) continue;
    computed.set(one.gives, one);
  }
  return computed;
}

function takeDefaults(
  kind: Kind,
  merged: Merged,
  fields: readonly [string, Field][],
  values: Values,
  computed: ReadonlySet<string>,
): string[] {
  const owner = merged.entry === undefined ? "default" : merged.entry.name;
  const own = new Set(fields.map(([name]) => name));
  const taken = fields.filter(
    ([name, field]) =>
      field.default &&
      values[name] === undefined &&
      !computed.has(name) &&
      // A field that this kind of entry doesn't have says nothing in place of one that it has.
      !field.unless?.some((other) => own.has(other) && values[other] !== undefined),
  );
  for (const [name, field] of taken) {
    values[name] = defaultParameter(name, field, field.default!, `${kind}/${owner}/${name}`);
  }
  return taken.map(([name]) => name);
}

function missing(
  kind: Kind,
  path: string,
  fields: readonly [string, Field][],
  values: Values,
  computed: ReadonlySet<string>,
): Problem[] {
  return fields
    .filter(([name, field]) => field.required && values[name] === undefined && !computed.has(name))
    .map(([name, field]): Problem => {
      const other = ALTERNATIVES.find((one) => one.kind === kind && one.gives === name);
      const or = other === undefined ? "" : `, or \`${other.needs.join("` and `")}\``;
      return {
        code: "missing-key",
        what: `the ${kind} has no \`${name}\``,
        path,
        expected: `\`${name}\`: ${field.meaning}, in ${field.unit}${or}`,
        fix: "give it, or start `from` an entry of the catalogue",
      };
    });
}
