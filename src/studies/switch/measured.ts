/** A table of measured points, as comma-separated text. */
import { nearestWord } from "../../errors/nearest.ts";
import { refuse, TenfoldError } from "../../errors/problem.ts";
import { readQuantity } from "../../quantities/quantity.ts";
import type { Measured } from "./fit.ts";

const UNITS = { voltage: "V", time: "s", current: "A", temperature: "K" } as const;
type Name = keyof typeof UNITS;

interface Heading {
  readonly name: Name;
  readonly unit: string;
}

/**
 * Reads `voltage,time` (switching times, with `temperature` where it varies) or
 * `time,voltage,current` (a loop). A heading may have its unit in brackets, as `time (ns)`; without
 * one the numbers are in SI. Lines that begin with `#` are remarks.
 *
 * @throws TenfoldError with line and column of what cannot be read
 */
export function readMeasured(text: string, file: string): Measured {
  const lines = text
    .split(/\r?\n/)
    .map((content, i) => ({ content, line: i + 1 }))
    .filter(({ content }) => content.trim() !== "" && !content.startsWith("#"));
  const [head, ...rows] = lines;
  if (head === undefined) return refuseEmpty(file);
  const headings = headingsOf(head, file);
  const names = headings.map(({ name }) => name);
  requireOnce(names, head, file);
  const at = (row: Row, name: Name) => row[names.indexOf(name)]!;
  const values = rows.map((row) => rowOf(row, headings, file));
  if (names.includes("voltage") && names.includes("time")) {
    const warm = names.includes("temperature") && !names.includes("current");
    const points = values.map((row) => ({
      voltage: at(row, "voltage"),
      time: at(row, "time"),
      ...(warm && { temperature: at(row, "temperature") }),
    }));
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

interface Line {
  readonly content: string;
  readonly line: number;
}

function refuseEmpty(file: string): never {
  return refuse({
    code: "missing-key",
    what: `${file} holds no measurement`,
    expected: "a line of headings, as `voltage,time`, and a line for each point below it",
  });
}

function headingsOf(head: Line, file: string): Heading[] {
  let column = 1;
  return head.content.split(",").map((text) => {
    const heading = headingOf(text, placeOf(file, head.line, column, head.content));
    column += text.length + 1;
    return heading;
  });
}

function requireOnce(names: readonly Name[], head: Line, file: string): void {
  const twice = names.find((name, i) => names.indexOf(name) < i);
  if (twice === undefined) return;
  refuse({
    code: "conflicting-keys",
    what: `two columns are named \`${twice}\``,
    place: placeOf(file, head.line, head.content.lastIndexOf(twice) + 1, head.content),
  });
}

function headingOf(text: string, place: Place): Heading {
  const [, name = "", unit] = /^\s*([a-z_]+)\s*(?:[([]([^)\]]+)[)\]])?\s*$/.exec(text) ?? [];
  if (!Object.hasOwn(UNITS, name)) {
    const nearest = nearestWord(name, Object.keys(UNITS));
    return refuse({
      code: "unknown-key",
      what: `\`${text.trim()}\` is no column of a measurement`,
      place,
      expected: "voltage, time, current or temperature; with a unit in brackets, as `time (ns)`",
      ...(nearest === undefined ? {} : { nearest }),
    });
  }
  const known = { name: name as Name, unit: unit ?? UNITS[name as Name] };
  try {
    inSi("1", known);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    refuse({ ...error.problems[0]!, place });
  }
  return known;
}

/** A number of a column in SI, to the nearest double. */
function inSi(digits: string, { name, unit }: Heading): number {
  return readQuantity(`${digits} ${unit}`, UNITS[name]);
}

function rowOf({ content, line }: Line, headings: readonly Heading[], file: string): Row {
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
    return inSi(String(value), headings[i]!);
  });
}

type Place = ReturnType<typeof placeOf>;

function placeOf(file: string, line: number, column: number, text: string) {
  return { file, line, column, text };
}
