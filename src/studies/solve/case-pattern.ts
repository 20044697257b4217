/** The pattern of a case: which junction stands where. */
import { refuse } from "../../errors/problem.ts";
import type { JunctionKind, Junctions } from "../../numerics/crossbar/problem.ts";
import { pow } from "../../numerics/special/elementary.ts";
import { kindOf as readKind } from "./case-laws.ts";
import {
  asIndex,
  asNumber,
  asWord,
  type Fields,
  fieldsOf,
  listAt,
  numberAt,
  onlyKeys,
  positiveAt,
  wholeAt,
  wordAt,
} from "./fields.ts";

const FORMS = ["same", "checkerboard", "modular", "matrix", "values", "levels"] as const;
const KEYS = {
  same: ["kind"],
  checkerboard: ["even", "odd"],
  modular: ["row_factor", "column_factor", "modulus", "below", "then", "else"],
  matrix: ["kinds"],
  values: ["resistance"],
  levels: ["row_factor", "column_factor", "modulus", "low", "high"],
};

/** Largest number of kinds in a case. */
const MOST_KINDS = 255;

function modulusOf(from: Fields): number {
  const modulus = wholeAt(from, "modulus");
  if (modulus > 0) return modulus;
  refuse({
    code: "not-positive",
    what: `${from.at}/modulus must be above zero`,
    path: `${from.at}/modulus`,
    got: String(modulus),
  });
}

/** (a i + b j) mod M, never negative. */
function residueOf(from: Fields, modulus: number): (i: number, j: number) => number {
  const a = wholeAt(from, "row_factor") % modulus;
  const b = wholeAt(from, "column_factor") % modulus;
  return (i, j) => (((a * i + b * j) % modulus) + modulus) % modulus;
}

function values(from: Fields, rows: number, columns: number): Float64Array {
  const out = new Float64Array(rows * columns);
  for (const [i, row] of listAt(from, "resistance", rows).entries()) {
    const at = `${from.at}/resistance/${i}`;
    const list = listAt({ at: `${from.at}/resistance`, values: { [i]: row } }, `${i}`, columns);
    for (let j = 0; j < columns; j++) {
      const r = asNumber(list[j], `${at}/${j}`);
      if (!(r > 0)) {
        refuse({
          code: "not-positive",
          what: `${at}/${j} must be above zero`,
          path: `${at}/${j}`,
          got: `${r}`,
        });
      }
      out[i * columns + j] = 1 / r;
    }
  }
  return out;
}

function levels(from: Fields, rows: number, columns: number): Float64Array {
  const modulus = modulusOf(from);
  const low = positiveAt(from, "low");
  const high = positiveAt(from, "high");
  if (modulus === 1) {
    refuse({
      code: "out-of-range",
      what: `${from.at}/modulus must be at least 2: one level has no spacing`,
      path: `${from.at}/modulus`,
      got: "1",
    });
  }
  const residue = residueOf(from, modulus);
  const steps = Float64Array.from({ length: modulus }, (_, k) =>
    k === 0 ? 1 / low : 1 / (low * pow(high / low, k / (modulus - 1))),
  );
  const out = new Float64Array(rows * columns);
  for (let i = 0, at = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++, at++) out[at] = steps[residue(i, j)]!;
  }
  return out;
}

/** The kind of every junction, by the pattern's form. */
function kindPattern(
  from: Fields,
  form: "same" | "checkerboard" | "modular" | "matrix",
  names: readonly string[],
  rows: number,
  columns: number,
): Uint8Array {
  const out = new Uint8Array(rows * columns);
  const kind = (key: string) => names.indexOf(wordAt(from, key, names));
  const fill = (of: (i: number, j: number) => number) => {
    for (let i = 0, at = 0; i < rows; i++) for (let j = 0; j < columns; j++) out[at++] = of(i, j);
  };
  if (form === "same") return out.fill(kind("kind"));
  if (form === "checkerboard") {
    const even = kind("even");
    const odd = kind("odd");
    fill((i, j) => ((i + j) % 2 === 0 ? even : odd));
    return out;
  }
  if (form === "modular") {
    const modulus = modulusOf(from);
    const residue = residueOf(from, modulus);
    const below = numberAt(from, "below");
    const yes = kind("then");
    const no = kind("else");
    fill((i, j) => (residue(i, j) < below ? yes : no));
    return out;
  }
  const matrix = listAt(from, "kinds", rows).map((row, i) =>
    listAt({ at: `${from.at}/kinds`, values: { [i]: row } }, `${i}`, columns),
  );
  fill((i, j) => names.indexOf(asWord(matrix[i]![j], names, `${from.at}/kinds/${i}/${j}`)));
  return out;
}

/** Reads `kinds` and `pattern`. */
export function junctionsOf(theCase: Fields, rows: number, columns: number): Junctions {
  const given = theCase.values["pattern"];
  if (given === undefined) {
    refuse({ code: "missing", what: `${theCase.at}/pattern is missing`, path: theCase.at });
  }
  const from = fieldsOf(given, `${theCase.at}/pattern`);
  const form = wordAt(from, "form", FORMS);
  onlyKeys(from, ["form", ...KEYS[form], "exceptions"]);
  if (form === "values" || form === "levels") {
    if (from.values["exceptions"] !== undefined) {
      refuse({
        code: "unknown-name",
        what: `${from.at}/exceptions: a pattern of numbers has no kinds to except`,
        path: `${from.at}/exceptions`,
        fix: "write the numbers themselves, or a matrix of kinds",
      });
    }
    return { conductance: (form === "values" ? values : levels)(from, rows, columns) };
  }
  const table = theCase.values["kinds"];
  if (table === undefined) {
    refuse({ code: "missing", what: `${theCase.at}/kinds is missing`, path: theCase.at });
  }
  const named = Object.entries(fieldsOf(table, `${theCase.at}/kinds`).values);
  if (named.length > MOST_KINDS) {
    refuse({ code: "out-of-range", what: `${theCase.at}/kinds: at most ${MOST_KINDS} kinds` });
  }
  const kinds: JunctionKind[] = named.map(([k, v]) => readKind(v, `${theCase.at}/kinds/${k}`));
  const names = named.map(([name]) => name);
  const kindOf = kindPattern(from, form, names, rows, columns);
  if (from.values["exceptions"] !== undefined) {
    for (const [k, value] of listAt(from, "exceptions").entries()) {
      const one = fieldsOf(value, `${from.at}/exceptions/${k}`);
      onlyKeys(one, ["row", "column", "kind"]);
      const i = asIndex(one.values["row"], rows, `${one.at}/row`);
      const j = asIndex(one.values["column"], columns, `${one.at}/column`);
      kindOf[i * columns + j] = names.indexOf(wordAt(one, "kind", names));
    }
  }
  return { kinds, kindOf };
}
