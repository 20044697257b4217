import { REPORTED } from "../estimate/quantities.ts";
import { basisOf } from "./compare.ts";
import type { EstimatedDesign, StudyEstimate } from "./estimate.ts";
import { type ErrorBasis, isGiven, memoryKind } from "./model-error.ts";

/** What the model intervals of one quantity rest on, for the designs that it is the same for. */
export interface ErrorSource {
  readonly quantity: string;
  readonly label: string;
  /** Kinds of the designs. */
  readonly kinds: readonly string[];
  readonly designs: readonly string[];
  /** Chips of these kinds alone, or of all kinds. */
  readonly pooled: boolean;
  readonly chips: number;
  /** Of the chips, those whose figure was recalled and not read. */
  readonly recalled: number;
  readonly median: number;
  readonly factor: number;
}

/** Where model intervals come from, and for what there is none. */
export interface ErrorSources {
  readonly sources: readonly ErrorSource[];
  /** Reported quantities that too few published chips give, or with too far a spread, by name. */
  readonly without: readonly string[];
  /** Designs whose cell area is given by process or paper, by title. */
  readonly given: readonly string[];
}

/** Counted, and so without an error of a model. */
const COUNTED = new Set(["transistors", "switches"]);

/** The quantities whose model error can be asked for. */
export const MODELLED = REPORTED.filter(({ name }) => !COUNTED.has(name));

/**
 * What the model intervals of a study rest on.
 *
 * @param names quantities, those of a comparison unless given
 */
export function errorSources(
  estimate: Pick<StudyEstimate, "errors" | "study"> & {
    readonly designs: readonly Pick<EstimatedDesign, "design" | "title" | "broken">[];
  },
  names: readonly string[] = MODELLED.map(({ name }) => name),
): ErrorSources {
  const { designs } = estimate;
  const working = designs.filter(({ broken }) => broken.length === 0);
  const asked = MODELLED.filter(({ name }) => names.includes(name));
  const sources = asked.flatMap(({ name, label }) => {
    const found = working.flatMap(({ design, title }) => {
      const basis = basisOf(estimate, { design }, name);
      return basis === undefined ? [] : [{ title, kind: memoryKind(design), basis }];
    });
    return grouped(found).map((group): ErrorSource => {
      const { pooled, chips, recalled, median, factor } = group[0]!.basis;
      const kinds = [...new Set(group.map(({ kind }) => kind))];
      const titles = group.map(({ title }) => title);
      return {
        quantity: name,
        label,
        kinds,
        designs: titles,
        pooled,
        chips,
        recalled,
        median,
        factor,
      };
    });
  });
  const stated = new Set(sources.map(({ quantity }) => quantity));
  const given = working.filter(({ design }) => isGiven("cell_area", memoryKind(design)));
  const without = asked.filter(
    ({ name }) =>
      !stated.has(name) && working.some(({ design }) => !isGiven(name, memoryKind(design))),
  );
  return {
    sources,
    without: without.map(({ name }) => name),
    given: asked.some(({ name }) => name === "cell_area") ? given.map(({ title }) => title) : [],
  };
}

interface Found {
  readonly title: string;
  readonly kind: string;
  readonly basis: ErrorBasis;
}

/** Designs with one basis: those whose kinds have too few chips share that of all kinds. */
function grouped(found: readonly Found[]): Found[][] {
  const groups = new Map<string, Found[]>();
  for (const one of found) {
    const key = one.basis.pooled ? "" : one.kind;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}
