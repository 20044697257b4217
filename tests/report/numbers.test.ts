/** Every number in the tables of a report is in its JSON: read back from the Markdown, by a reader of its own. */
import { expect, test } from "vitest";
import { parseFormula } from "../../src/formulas/parse.ts";
import { openStudy } from "../../src/io/study.ts";
import { parseUnit } from "../../src/quantities/unit.ts";
import { reportFiles } from "../../src/report/documents/report/files.ts";
import { furtherBlocks } from "../../src/report/documents/report/further.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { studySources } from "../../src/studies/explain.ts";

interface Block {
  readonly kind: string;
  readonly name: string;
  readonly unit: string;
  readonly columns: readonly { readonly name: string }[];
  readonly rows: readonly (readonly Cell[] & ComparisonRow)[];
  readonly bars: readonly {
    readonly label: string;
    readonly parts: readonly { readonly value: number }[];
  }[];
}
type Cell = Readonly<Record<string, unknown>> & { readonly kind: string; readonly unit?: string };
interface ComparisonRow {
  readonly unit: string;
  readonly figures: readonly unknown[];
}

/** All numbers of a piece of JSON. */
function numbersIn(data: unknown): number[] {
  if (typeof data === "number") return [data];
  if (typeof data !== "object" || data === null) return [];
  return Object.values(data).flatMap(numbersIn);
}

/** Rows of the pipe tables of a Markdown text, table by table, without heads. */
function tablesOf(markdown: string): string[][][] {
  const tables: string[][][] = [];
  let open = false;
  for (const line of markdown.split("\n")) {
    if (!line.startsWith("|")) {
      open = false;
      continue;
    }
    const cells = line
      .slice(1, -1)
      .split(/(?<!\\)\|/)
      .map((cell) => cell.trim());
    if (!open) tables.push([]);
    open = true;
    tables.at(-1)!.push(cells);
  }
  return tables.map((rows) => rows.slice(2));
}

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const NUMBER = /(× )?([−-]?\d+(?:\.\d+)?)(?![\d.]*\/)(?: × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?( %)?/g;
const PREFIX: Readonly<Record<string, number>> = { k: 1e3, M: 1e6, G: 1e9, T: 1e12 };

interface Printed {
  readonly value: number;
  /** Half of what the last digit stands for. */
  readonly half: number;
  readonly isRatio: boolean;
}

/** The numbers that a cell prints, in SI, with the unit that stands behind them or beside the row. */
function printedIn(cell: string, unit: string): Printed[] {
  const factor = factorOf(unit);
  return [...cell.replaceAll("**", "").matchAll(NUMBER)].map(
    ([, times, digits, power, percent]) => {
      const exponent = power === undefined ? 0 : exponentOf(power);
      const isRatio = times !== undefined;
      const scale = 10 ** exponent * (isRatio ? 1 : percent === undefined ? factor : 0.01);
      const places = digits!.split(".")[1]?.length ?? 0;
      const plain = Number(digits!.replace("−", "-"));
      // A whole number may end in zeros that are no digits.
      const zeros = places > 0 ? 0 : /0*$/.exec(digits!)![0].length % digits!.length;
      return { value: plain * scale, half: 0.5 * 10 ** (zeros - places) * scale, isRatio };
    },
  );
}

function exponentOf(raised: string): number {
  return Number(raised.replace(/./g, (c) => (c === "⁻" ? "-" : String(RAISED.indexOf(c)))));
}

function factorOf(unit: string): number {
  if (unit === "") return 1;
  if (PREFIX[unit] !== undefined) return PREFIX[unit];
  const ascii = unit
    .replaceAll("²", "^2")
    .replaceAll("³", "^3")
    .replaceAll("⁻¹", "^-1")
    .replaceAll("Ω", "ohm")
    .replaceAll("µ", "u")
    .replaceAll("°C", "degC")
    .replaceAll("·", " ");
  return parseUnit(ascii).factor;
}

/** The unit of a cell: what is left beside its numbers, which is there once or behind each. */
function unitIn(cell: string): string {
  const left = cell
    .replaceAll("**", "")
    .replace(NUMBER, "#")
    .split(/[#()–]+/);
  return left.map((part) => part.trim()).find((part) => part !== "") ?? "";
}

function expectIn(printed: readonly Printed[], known: readonly number[], where: string): number {
  for (const { value, half } of printed) {
    const found = known.some((x) => Math.abs(x - value) <= half * (1 + 1e-9) + 1e-12 * Math.abs(x));
    expect(found, `${where}: ${value} is none of ${known.join(", ")}`).toBe(true);
  }
  return printed.length;
}

test("a report's tables print nothing that its JSON does not have, rounded as they say", async () => {
  const path = "configs/tarn-working-memory.yaml";
  const { study, catalogue } = await openStudy(path);
  const estimate = estimateStudy({ ...study, samples: 128 }, catalogue, parseFormula);
  const files = reportFiles({
    estimate,
    further: furtherBlocks(estimate, {}),
    provenance: { sha256: "0".repeat(64), version: "0.0.0" },
    references: studySources(study, catalogue, parseFormula),
    command: "tenfold report",
  });
  const { blocks } = JSON.parse(files.get("report.json")!) as { blocks: Block[] };
  const tables = tablesOf(files.get("report.md")!);
  const drawn = blocks.filter(({ kind }) =>
    ["table", "comparison", "bars", "pairs"].includes(kind),
  );
  let checked = 0;
  for (const block of drawn) {
    if (block.kind === "pairs") continue;
    const rows = tables.shift()!;
    if (block.kind === "comparison") {
      block.rows.forEach(({ unit: _, figures }, i) => {
        const [, unit, ...cells] = rows[i]!;
        cells.forEach((cell, d) => {
          const where = `${block.name}, row ${i + 1}, design ${d + 1}`;
          checked += expectIn(printedIn(cell, unit!), numbersIn(figures[d] ?? {}), where);
        });
      });
    } else if (block.kind === "table") {
      block.rows.forEach((cells, i) => {
        cells.forEach((cell, c) => {
          if (cell.kind === "text" || cell.kind === "none") return;
          const text = rows[i]![c]!;
          // A temperature in degrees has another zero.
          if (text.includes("°C")) return;
          const where = `${block.name}, row ${i + 1}, ${block.columns[c]!.name}`;
          checked += expectIn(printedIn(text, unitIn(text)), numbersIn(cell), where);
        });
      });
    }
  }
  expect(checked).toBeGreaterThan(1000);
});
