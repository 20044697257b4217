/** What a design cannot be, once its names have got their meaning. */
import { type Problem, refuse } from "../errors/problem.ts";
import {
  checkOrganisation,
  checkStudySupply,
  checkSupply,
  checkSwitch,
  type Locate,
} from "../schema/checks.ts";
import type { Study } from "../schema/study.ts";
import type { ResolvedCell } from "./cell.ts";
import type { Organised } from "./layout.ts";
import type { ParameterSet } from "./parameters.ts";

/** Before the JSON pointers of what a study says itself, in the keys of its parameters. */
const OF_STUDY = "study:";

/**
 * The checks of the schema again, with the figures of catalogue, defaults and overrides together.
 *
 * @returns problems with their places in the study
 */
export function impossibilities(
  study: Study,
  name: string,
  cell: ResolvedCell,
  organised: Organised,
  parameters: ParameterSet,
): Problem[] {
  const design = study.designs[name]!;
  const path = `/designs/${name}`;
  const at =
    (prefix: string): Locate =>
    (key) => ({ path: `${prefix}/${key}`, place: study.place(`${prefix}/${key}`) });
  /** Where the first of these figures stands that the study states itself, else what brought them in. */
  const whence =
    (fallback: string, ...keys: string[]): Locate =>
    () => {
      const own = keys
        .map((key) => parameters.get(key)?.key ?? "")
        .find((key) => key.startsWith(OF_STUDY));
      const pointer = own?.slice(OF_STUDY.length) ?? `${path}/${fallback}`;
      return { path: pointer, place: study.place(pointer) };
    };
  const figures = (...keys: string[]) =>
    Object.fromEntries(keys.map((key) => [key, parameters.get(key)]));
  const { rows: _, ...tile } = design.tile ?? {};
  return [
    ...supplyProblems(parameters, whence),
    ...(cell.switch === undefined
      ? []
      : checkSwitch(
          figures("on_resistance", "off_resistance"),
          whence("cell", "off_resistance", "on_resistance"),
        )),
    ...checkOrganisation(
      {
        ...tile,
        word: design.word,
        capacity: design.capacity,
        bits: design.cell?.bits,
        columns: organised.columns,
        column_share: organised.columnShare,
        transistors: cell.model.structure.transistorInCell,
      },
      (key) => at(["capacity", "word"].includes(key) ? path : `${path}/tile`)(key),
    ),
  ];
}

/**
 * Refuses an organisation whose banks have fewer tiles than one access wakes.
 *
 * @param values of a program that has the organisation's quantities
 * @throws TenfoldError `word-too-wide`
 */
export function requireTiles(
  values: ReadonlyMap<string, number>,
  locate: (key: string) => Pick<Problem, "path" | "place">,
): void {
  const [active, tiles, bits] = ["tiles_active", "tiles_per_bank", "coded_word"].map(
    (name) => values.get(name)!,
  ) as [number, number, number];
  if (active <= tiles) return;
  refuse({
    code: "word-too-wide",
    what: `an access of ${bits} bits wakes ${active} tiles, but a bank has ${tiles}`,
    ...locate("tile"),
    expected: "a bank whose tiles give a whole word at once",
    fix: "fewer columns that share an amplifier, smaller tiles, or fewer banks",
  });
}

/** The technology's own supply against the threshold, and the study's against what gates need. */
function supplyProblems(
  parameters: ParameterSet,
  whence: (fallback: string, ...keys: string[]) => Locate,
): Problem[] {
  const [own, used, threshold] = ["nominal_supply", "supply", "threshold_voltage"].map((name) =>
    parameters.get(name),
  );
  const problems = checkSupply(own, threshold, whence("technology", "threshold_voltage"));
  if (problems.length > 0) return problems;
  return checkStudySupply(used, threshold, whence("technology", "supply", "threshold_voltage"));
}
