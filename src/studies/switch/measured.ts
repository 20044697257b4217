/** A table of measured points, as comma-separated text. */
import { refuse } from "../../errors/problem.ts";
import { parseUnit } from "../../quantities/unit.ts";
import type { Measured } from "./fit.ts";

const UNITS = { voltage: "V", time: "s", current: "A" } as const;
type Name = keyof typeof UNITS;

interface Heading {
  readonly name: Name;
  readonly factor: number;
}

/**
 * Reads `voltage,time` (switching times) or `time,voltage,current` (a loop). A heading may have its
 * unit in brackets, as `time (ns)`; without one the numbers are in SI. Lines that begin with `#`
 * are remarks.
 *
 * @throws TenfoldError with line and column of what cannot be read
 */
export function readMeasured(text: string, file: string): Measured {
  const lines = text
    .split(/\r?\n/)
    .map((content, i) => ({ content, line: i + 1 }))
    .filter(({ content }) => content.trim() !== "" && !content.startsWith("#"));
  const [head, ...rows] = lines;
  const headings = (head?.content ?? "").split(",").map((one) => headingOf(one, file));
  const names = headings.map(({ name }) => name);
  const at = (row: Row, name: Name) => row[names.indexOf(name)]!;
  const values = rows.map((row) => rowOf(row, headings, file));
  if (names.includes("voltage") && names.includes("time")) {
    const points = values.map((row) => ({ voltage: at(row, "voltage"), time: at(row, "time") }));
    if (!names.includes("current")) return { kind: "times", points };
    return {
      kind: "loop",
      points: points.map((point, i) => ({ ...point, current: at(values[i]!, "current") })),
    };
  }
  return refuse({
    code: "missing-key",
    what: `${file} has not the columns of a measurement`,
    got: names.join(", "),
    expected: "`voltage,time` for switching times, `time,voltage,current` for a loop",
  });
}

type Row = readonly number[];

function headingOf(text: string, file: string): Heading {
  const [, name = "", unit] = /^\s*([a-z_]+)\s*(?:[([]([^)\]]+)[)\]])?\s*$/.exec(text) ?? [];
  if (!Object.hasOwn(UNITS, name)) {
    return refuse({
      code: "unknown-key",
      what: `\`${text.trim()}\` is no column of a measurement`,
      place: placeOf(file, 1, 1, text),
      expected: "voltage, time, current; with a unit in brackets, as `time (ns)`",
    });
  }
  const known = name as Name;
  const parsed = parseUnit(unit ?? UNITS[known]);
  return { name: known, factor: parsed.factor / parseUnit(UNITS[known]).factor };
}

function rowOf(
  { content, line }: { readonly content: string; readonly line: number },
  headings: readonly Heading[],
  file: string,
): Row {
  const cells = content.split(",");
  if (cells.length !== headings.length) {
    refuse({
      code: "not-a-number",
      what: `a row with ${cells.length} figures below ${headings.length} headings`,
      place: placeOf(file, line, 1, content),
    });
  }
  let column = 1;
  return cells.map((cell, i) => {
    const value = Number(cell);
    if (cell.trim() === "" || !Number.isFinite(value)) {
      refuse({
        code: "not-a-number",
        what: `\`${cell.trim()}\` is no number`,
        place: placeOf(file, line, column, content),
        expected: `a ${headings[i]!.name}`,
      });
    }
    column += cell.length + 1;
    return value * headings[i]!.factor;
  });
}

function placeOf(file: string, line: number, column: number, text: string) {
  return { file, line, column, text };
}
