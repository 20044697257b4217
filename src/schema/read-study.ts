/** The text of a study to a typed study, with every mistake at once. */

import { nearestWord } from "../errors/nearest.ts";
import type { Parameter } from "../quantities/parameter.ts";
import {
  checkOrganisation,
  checkSelector,
  checkStudySupply,
  checkSupply,
  checkSwitch,
  type Locate,
} from "./checks.ts";
import { studyField } from "./definition.ts";
import { placeIn, STUDY_KEYS } from "./locate.ts";
import { mergedDesign } from "./merge.ts";
import { readField } from "./read.ts";
import { below, Reading } from "./report.ts";
import { type Setting, withSettings } from "./settings.ts";
import type { Cell, Design, Study, StudyFile } from "./study.ts";
import type { StudySections, StudyTables } from "./tables.ts";
import { unknownNames } from "./unknown-names.ts";
import { locatedTree } from "./yaml/tree.ts";

export interface ReadOptions {
  /** The figures that entries and overrides may have. */
  readonly tables: StudyTables;
  /** Definitions for `claims`, `sweep`, `organise`; without one a section stays as it stands. */
  readonly sections?: StudySections;
  /** Values in place of those of the file, as if they stood there. */
  readonly set?: readonly Setting[];
}

const DEFAULT_COVERAGE = 0.95;
const DEFAULT_SEED = 1;
const DEFAULT_SAMPLES = 1024;

/**
 * Reads a study.
 * @param file its name, for places only
 * @throws TenfoldError with all mistakes in the order of the file
 */
export function readStudy(text: string, file: string, options: ReadOptions): Study {
  const tree = withSettings(locatedTree(text, file), options.set ?? []);
  const origin = { source: "this study", basis: "user", keyPrefix: STUDY_KEYS } as const;
  const reading = new Reading(tree.source, tree.problems, origin);
  const field = studyField(options.tables, options.sections);
  // With problems some parts are absent; nobody sees the value then.
  const read = readField(tree.root, field, { name: "", path: "" }, reading) as StudyFile;
  const designs: Record<string, Design> = {};
  for (const [name, own] of Object.entries(read.designs ?? {})) {
    designs[name] = mergedDesign(own, read);
  }
  const { coverage, seed, samples, defaults: _, ...rest } = read;
  const study: Study = {
    ...rest,
    file,
    designs,
    coverage: coverage?.value ?? DEFAULT_COVERAGE,
    seed: seed ?? DEFAULT_SEED,
    samples: samples ?? DEFAULT_SAMPLES,
    place: (path, of) => placeIn(tree, path, of),
  };
  new StudyChecks(study, reading).run();
  // A file without other mistakes has its names looked up by the catalogue anyway.
  if (reading.problems.length > 0) reading.problems.push(...unknownNames(study, options.tables));
  reading.finish();
  return study;
}

/** What the definitions of single keys can't see. */
class StudyChecks {
  readonly study: Study;
  readonly reading: Reading;

  constructor(study: Study, reading: Reading) {
    this.study = study;
    this.reading = reading;
  }

  run(): void {
    this.baseline();
    for (const [name, design] of Object.entries(this.study.designs)) {
      const path = below("/designs", name);
      this.complete(name, design, path);
      this.cell(design.cell, path);
      this.possible(design, path);
    }
  }

  private baseline(): void {
    const { baseline, designs } = this.study;
    if (baseline === undefined || Object.hasOwn(designs, baseline)) return;
    const names = Object.keys(designs);
    if (names.length === 0) return;
    const nearest = nearestWord(baseline, names);
    this.add("unknown-design", `\`${baseline}\` isn't one of the designs`, "/baseline", {
      expected: `one of ${names.join(", ")}`,
      ...(nearest === undefined ? {} : { nearest }),
    });
  }

  /** What only the user can know. A key whose value was refused is no missing one. */
  private complete(name: string, design: Design, path: string): void {
    for (const [key, example] of [
      ["cell", "sram-6t"],
      ["capacity", "1 Mib"],
      ["word", "32 bit"],
    ] as const) {
      if (design[key] !== undefined || this.refused(path, key)) continue;
      this.add("missing-key", `design \`${name}\` has no \`${key}\``, path, {
        fix: `add \`${key}: ${example}\` to it or to \`defaults\``,
      });
    }
  }

  private refused(path: string, key: string): boolean {
    const wanted = [below(path, key), `/defaults/${key}`];
    return this.reading.problems.some(
      (p) =>
        p.path !== undefined && wanted.some((w) => p.path === w || p.path!.startsWith(`${w}/`)),
    );
  }

  private cell(cell: Cell | undefined, path: string): void {
    if (cell === undefined) return;
    const at = `${path}/cell`;
    const others = (["switch", "selector", "form", "bits"] as const).filter(
      (key) => cell[key] !== undefined,
    );
    if (cell.baseline !== undefined && others.length > 0) {
      this.add(
        "conflicting-keys",
        `\`baseline\` and \`${others[0]}\` exclude each other`,
        `${at}/${others[0]}`,
        {
          expected: "an all-CMOS cell by its name, or a switch with its selector",
        },
      );
    }
    if (cell.baseline === undefined && cell.switch === undefined && !this.refused(at, "switch")) {
      this.add("missing-key", "the cell has no `switch`", at, {
        expected: "`cell: sram-6t` for an all-CMOS cell, or a mapping with `switch` and `selector`",
        fix: "such as `switch: oxide-bilayer`",
      });
    }
  }

  private possible(design: Design, path: string): void {
    const { cell, tile, overrides, technology, supply } = design;
    const sw = cell?.switch;
    const selector = cell?.selector;
    const given = (key: string): Parameter | undefined =>
      overrides?.[key] ?? technology?.values[key];
    const at =
      (prefix: string): Locate =>
      (name) => {
        const pointer = below(prefix, name);
        return { path: pointer, place: this.study.place(pointer) };
      };
    const found =
      (parameter: Parameter | undefined): Locate =>
      () => {
        const pointer = parameter?.key.slice(STUDY_KEYS.length) ?? path;
        return { path: pointer, place: this.study.place(pointer) };
      };
    // A selector that is only named is looked up by the catalogue, which checks again.
    const transistors = cell?.baseline !== undefined || isTransistor(selector);
    const { rows: _, ...lines } = tile ?? {};
    const organisation = {
      capacity: design.capacity,
      word: design.word,
      bits: cell?.bits,
      ...lines,
      transistors,
    };
    this.reading.problems.push(
      ...(sw === undefined ? [] : checkSwitch(sw.values, at(sw.path))),
      ...(selector === undefined ? [] : checkSelector(selector.values, at(selector.path))),
      ...(supply === undefined
        ? checkSupply(given("supply"), given("threshold_voltage"), found(given("supply")))
        : checkStudySupply(supply, given("threshold_voltage"), found(supply))),
      ...checkOrganisation(organisation, (name) =>
        at(["capacity", "word"].includes(name) ? path : `${path}/tile`)(name),
      ),
    );
  }

  private add(
    code: string,
    what: string,
    path: string,
    more: { expected?: string; nearest?: string; fix?: string },
  ) {
    this.reading.problems.push({ code, what, path, place: this.study.place(path), ...more });
  }
}

function isTransistor(selector: Cell["selector"]): boolean {
  const words = ["transistor", "array-transistor", "array-diode"];
  return words.includes(selector?.variant ?? "") || words.includes(selector?.from ?? "");
}
