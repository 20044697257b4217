import type { Parameters } from "../catalogue/entry.ts";
import { type Catalogue, type Resolved, selectorLaw } from "../catalogue/index.ts";
import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import type { SchemePair } from "../models/crossbar/contract.ts";
import { type CellModel, cells, crosspointCellModel } from "../models/registry.ts";
import type { SelectorKind } from "../models/selector/bias.ts";
import type { Design, Study } from "../schema/study.ts";
import { crosspointName } from "./structure.ts";

/** A cell as the study and the catalogue give it: its kind, and the entries that its parameters come from. */
export interface ResolvedCell {
  /** A name of the registry, or `crosspoint`. */
  readonly kind: string;
  readonly crosspoint?: string;
  readonly schemes?: SchemePair;
  readonly selectorKind?: SelectorKind;
  readonly model: CellModel;
  readonly baseline?: Resolved;
  readonly switch?: Resolved;
  readonly selector?: Resolved;
}

const DEFAULT_SCHEME = "one-half";

/**
 * What a design's cell is.
 *
 * @param context the technology's parameters, which a cell may take figures from
 * @throws TenfoldError `unknown-word`, `not-a-memory-cell`, `conflicting-keys`
 */
export function resolveCell(
  study: Study,
  name: string,
  catalogue: Catalogue,
  context: Parameters,
): ResolvedCell {
  const design = study.designs[name]!;
  const path = `/designs/${name}/cell`;
  const at = (problem: Problem): never => refuse({ ...problem, path, place: study.place(path) });
  const { cell } = design;
  if (cell?.baseline !== undefined) {
    const baseline = located(study, path, () =>
      catalogue.resolve("baseline", cell.baseline!, context),
    );
    const kind = baseline.chain.find((one) => Object.hasOwn(cells, one));
    if (kind === undefined) {
      return at({
        code: "not-a-memory-cell",
        what: `\`${baseline.name}\` is no cell of a random-access memory`,
        expected: `one of ${Object.keys(cells)
          .filter((one) => !one.startsWith("resistive"))
          .join(", ")}`,
        fix: "or start `from` one of them and change its figures",
      });
    }
    if (design.bias !== undefined) return biasConflict(study, name);
    return { kind, model: cells[kind]!, baseline };
  }
  const device = located(study, path, () => catalogue.resolve("switch", cell!.switch!, context));
  const selectorUse = cell!.selector ?? { from: "none", values: {}, path: `${path}/selector` };
  const named =
    selectorUse.from === undefined && selectorUse.variant !== undefined
      ? { ...selectorUse }
      : selectorUse;
  const selector = located(study, path, () => catalogue.resolve("selector", named, context));
  return withSwitch(study, name, design, device, selector);
}

function withSwitch(
  study: Study,
  name: string,
  design: Design,
  device: Resolved,
  selector: Resolved,
): ResolvedCell {
  const form = design.cell?.form ?? "single";
  const variant = selector.variant ?? "none";
  const path = `/designs/${name}/cell`;
  if (form === "two-switch-match" || form === "shadow") {
    return refuse({
      code: "not-a-memory-cell",
      what: `a cell of the form \`${form}\` is no cell of a random-access memory`,
      path,
      place: study.place(path),
      expected: "`single`, `complementary` or `differential`",
    });
  }
  if (variant === "transistor" || variant === "array-transistor" || variant === "array-diode") {
    if (design.bias !== undefined) return biasConflict(study, name);
    const kind = form === "differential" ? "resistive-pair" : singleCell(variant, device);
    return { kind, model: cells[kind]!, switch: device, selector };
  }
  const kind = (form === "complementary" ? "complementary" : selectorLaw(selector)) as SelectorKind;
  const schemes = schemesOf(design);
  return {
    kind: "crosspoint",
    crosspoint: crosspointName(kind, schemes),
    schemes,
    selectorKind: kind,
    model: crosspointCellModel(kind, schemes),
    switch: device,
    selector,
  };
}

/** One selector in silicon and one switch: of a memory process, of a logic process, or written by a field. */
function singleCell(
  variant: "transistor" | "array-transistor" | "array-diode",
  device: Resolved,
): string {
  if (variant !== "transistor") return `resistive-${variant}`;
  const byField = device.parameters["line_write_current"] !== undefined;
  return byField ? "resistive-field-written" : "resistive-transistor";
}

function schemesOf({ bias = DEFAULT_SCHEME }: Design): SchemePair {
  if (typeof bias === "string") return { read: bias, write: bias };
  return { read: bias.read ?? DEFAULT_SCHEME, write: bias.write ?? DEFAULT_SCHEME };
}

function biasConflict(study: Study, name: string): never {
  const path = `/designs/${name}/bias`;
  return refuse({
    code: "conflicting-keys",
    what: "a cell with a transistor of its own needs no bias scheme",
    path,
    place: study.place(path),
    fix: "leave `bias` out, or use a selector without a transistor",
  });
}

/** Runs what may refuse, and gives its problems the place in the study where they have none. */
export function located<T>(study: Study, path: string, run: () => T): T {
  try {
    return run();
  } catch (error) {
    throw withPlaces(error, study, path);
  }
}

function withPlaces(error: unknown, study: Study, path: string): unknown {
  if (!(error instanceof TenfoldError)) return error;
  return new TenfoldError(
    error.problems.map((problem) =>
      problem.place === undefined
        ? { ...problem, path: problem.path ?? path, place: study.place(problem.path ?? path) }
        : problem,
    ),
    error.exitCode,
  );
}
