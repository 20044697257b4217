/** An entry laid over another, laid over another: which value wins. */

import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { EntryUse } from "../schema/field.ts";
import { DISPLACES, EXCLUDES } from "./alternatives.ts";
import type { Entry, Parameters } from "./entry.ts";
import type { Kind } from "./kinds.ts";

/** Finds the entry of a name that `above`, if any, is laid over. */
export type Find = (name: string, above?: Entry) => Entry;

/** What the layers of a node come to. */
export interface Merged {
  /** The names of the entries, the nearest first. */
  readonly chain: readonly string[];
  readonly entry?: Entry;
  readonly variant?: string;
  readonly values: Record<string, Parameter>;
}

/**
 * Merges a node with the entries below it. Values of entries get the key of the nearest named
 * entry, so that all designs that name the same device share its draws and two devices of one class
 * don't.
 * @throws TenfoldError `from-cycle`, `conflicting-keys`, and what `find` throws
 */
export function mergeLayers(kind: Kind, node: EntryUse, find: Find): Merged {
  const entries = chainOf(kind, node.from, find);
  const owner = entries[0];
  const layers: { values: Parameters; where: string }[] = entries.map((entry) => ({
    values: owner === undefined ? entry.values : ownedBy(owner.name, kind, entry.values),
    where: `${kind} ${entry.name}`,
  }));
  layers.unshift({ values: node.values, where: node.path });
  let values: Record<string, Parameter> = {};
  for (const { values: layer, where } of layers.reverse()) {
    checkLayer(kind, layer, where);
    values = { ...without(values, displacedBy(kind, layer)), ...layer };
  }
  const variant = variantOf(kind, node, entries);
  return {
    chain: entries.map(({ name }) => name),
    ...(owner === undefined ? {} : { entry: owner }),
    ...(variant === undefined ? {} : { variant }),
    values,
  };
}

function chainOf(kind: Kind, from: string | undefined, find: Find): Entry[] {
  const chain: Entry[] = [];
  for (let name = from; name !== undefined; name = chain.at(-1)!.from) {
    const entry = find(name, chain.at(-1));
    if (chain.includes(entry)) {
      refuse({
        code: "from-cycle",
        what: `the ${kind} "${name}" is laid over itself`,
        got: [...chain.map((one) => one.name), name].join(" from "),
        fix: "let `from` name an entry that doesn't lead back",
      });
    }
    chain.push(entry);
  }
  return chain;
}

function ownedBy(owner: string, kind: Kind, values: Parameters): Parameters {
  const keyed = Object.entries(values).map(([field, value]) => [
    field,
    { ...value, key: `${kind}/${owner}/${field}` },
  ]);
  return Object.fromEntries(keyed);
}

function checkLayer(kind: Kind, layer: Parameters, where: string): void {
  const problems: Problem[] = [];
  for (const group of EXCLUDES[kind] ?? []) {
    if (!group.every((field) => Object.hasOwn(layer, field))) continue;
    const often = group.length === 2 ? "twice" : "once too often";
    problems.push({
      code: "conflicting-keys",
      what: `${listed(group)} of ${where} say the same thing ${often}`,
      got: listed(group),
      fix: `leave out one of them`,
    });
  }
  if (problems.length > 0) throw new TenfoldError(problems);
}

function displacedBy(kind: Kind, layer: Parameters): ReadonlySet<string> {
  const table = DISPLACES[kind] ?? {};
  const displaced = Object.keys(layer).flatMap((field) => table[field] ?? []);
  // An off resistance with a ratio says the on resistance too.
  const both = Object.hasOwn(layer, "off_resistance") && Object.hasOwn(layer, "on_off_ratio");
  return new Set(both ? [...displaced, "on_resistance", "resistance_area_product"] : displaced);
}

function variantOf(kind: Kind, node: EntryUse, entries: readonly Entry[]): string | undefined {
  const below = entries.find(({ variant }) => variant !== undefined);
  if (node.variant === undefined || below === undefined || below.variant === node.variant) {
    return node.variant ?? below?.variant;
  }
  return refuse({
    code: "conflicting-keys",
    what: `the ${kind} "${below.name}" is of kind ${below.variant}, not ${node.variant}`,
    path: `${node.path}/kind`,
    got: node.variant,
    expected: below.variant ?? "",
    fix: "leave out `kind`, or start from another entry",
  });
}

function without(values: Record<string, Parameter>, names: ReadonlySet<string>) {
  return Object.fromEntries(Object.entries(values).filter(([name]) => !names.has(name)));
}

function listed(names: readonly string[]): string {
  return names.map((name) => `\`${name}\``).join(", ");
}
