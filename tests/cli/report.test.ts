import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { formatRow } from "../../src/quantities/format.ts";
import { ratioText } from "../../src/report/documents/report/answer.ts";
import { HOSTILE_STUDY } from "./hostile-study.ts";
import { ROOT, scratch, tenfold } from "./run.ts";
import { programOf, withProgram } from "./tools.ts";

type Ratio = Parameters<typeof ratioText>[0];

const DEMO = join(ROOT, "configs/tarn-working-memory.yaml");
const WORK = join(ROOT, `report.${process.pid}.tmp`);
const demo = join(WORK, "demo");
const hostile = join(WORK, "hostile");

beforeAll(() => {
  mkdirSync(WORK, { recursive: true });
  writeFileSync(join(WORK, "hostile.yaml"), HOSTILE_STUDY);
  expect(tenfold(["report", DEMO, "--out", demo, "--quiet"])).toMatchObject({ code: 0, err: "" });
  const ran = tenfold(["report", join(WORK, "hostile.yaml"), "--out", hostile, "--quiet"]);
  expect(ran).toMatchObject({ code: 0, err: "" });
  return () => rmSync(WORK, { recursive: true, force: true });
}, 120_000);

const read = (directory: string, name: string): string =>
  readFileSync(join(directory, name), "utf8");

describe("tenfold report", () => {
  test("writes every format, each chart as a file, each table as CSV", () => {
    const names = readdirSync(demo, { recursive: true, encoding: "utf8" });
    for (const name of ["report.md", "report.html", "report.tex", "estimate.json", "sources.bib"]) {
      expect(names).toContain(name);
    }
    const linked = [...read(demo, "report.md").matchAll(/\]\((charts\/[^)]*)\)/g)];
    expect(linked.length).toBeGreaterThanOrEqual(6);
    for (const [, path] of linked) expect(existsSync(join(demo, path!)), path).toBe(true);
    expect(names).toContain(join("tables", "comparison.csv"));
  });

  test("gives the same bytes again, and from another directory", () => {
    const elsewhere = scratch();
    tenfold(["report", DEMO, "--out", elsewhere, "--quiet"], { cwd: elsewhere });
    for (const name of readdirSync(demo, { recursive: true, encoding: "utf8" })) {
      if (/\.\w+$/.test(name)) expect(read(elsewhere, name), name).toBe(read(demo, name));
    }
  });

  test("replaces nothing that is there, unless it is told to", () => {
    const before = read(demo, "report.md");
    const again = tenfold(["report", DEMO, "--out", demo, "--set", "temperature=85degC"]);
    expect(again.code).toBe(2);
    expect(again.err).toContain("--force");
    expect(read(demo, "report.md")).toBe(before);
  });

  test("holds in its JSON what the commands print", () => {
    expect(read(demo, "estimate.json")).toBe(tenfold(["estimate", DEMO, "--format", "json"]).out);
    expect(read(demo, "comparison.json")).toBe(tenfold(["compare", DEMO, "--format", "json"]).out);
    expect(read(demo, "sources.bib")).toBe(tenfold(["sources", DEMO, "--format", "bibtex"]).out);
  });

  test("answers in two sentences whose numbers are those of the comparison", () => {
    const answer = /## The answer\n\n(.*)\n/.exec(read(demo, "report.md"))![1]!;
    expect(answer.match(/\.(?= |$)/g)).toHaveLength(2);
    const { quantities } = JSON.parse(read(demo, "comparison.json"));
    const known = quantities.flatMap((one: { designs: Record<string, { ratio?: Ratio }> }) =>
      Object.values(one.designs).flatMap(({ ratio }) =>
        ratio === undefined ? [] : ratioText(ratio),
      ),
    );
    const said = [...answer.matchAll(/× [^()]* \([^()]*\)/g)].map(([text]) => text);
    expect(said.length).toBeGreaterThan(2);
    for (const text of said) expect(known).toContain(text);
  });

  test("says how to run it again, with version, hash and seed", () => {
    const text = read(demo, "report.md");
    const { study } = JSON.parse(read(demo, "estimate.json"));
    for (const part of ["tenfold report tarn-working-memory.yaml", study.sha256, study.version]) {
      expect(text).toContain(part);
    }
  });

  test("every chart is one picture to a screen reader, with words for what it shows", () => {
    for (const name of readdirSync(join(demo, "charts"))) {
      const svg = read(demo, join("charts", name));
      expect(svg).toMatch(/^<svg [^>]*role="img"/);
      expect(/aria-label="([^"]*)"/.exec(svg)![1]!.length).toBeGreaterThan(60);
      expect(svg).not.toMatch(/<script|javascript:|https?:(?!\/\/www\.w3\.org)/);
    }
  });
});

withProgram("TeX", programOf("TENFOLD_LATEX", ["pdflatex"]), (latex) => {
  test.each([
    ["the demo", demo],
    ["a study of hostile texts", hostile],
  ])("compiles the report of %s without an error", (_, directory) => {
    const out = scratch();
    const ran = spawnSync(
      latex,
      [
        "-interaction=nonstopmode",
        "-halt-on-error",
        `-output-directory=${out}`,
        join(directory, "report.tex"),
      ],
      { cwd: out, encoding: "latin1" },
    );
    expect(ran.stdout).not.toMatch(/^!/m);
    expect(ran.status).toBe(0);
    expect(existsSync(join(out, "report.pdf"))).toBe(true);
  });
});

const chromium = programOf("TENFOLD_CHROMIUM", ["chromium", "chromium-browser", "google-chrome"]);
withProgram("a browser", chromium, (executablePath) => {
  const pages = [
    ["the report of the demo", join(demo, "report.html")],
    ["the report of hostile texts", join(hostile, "report.html")],
  ] as const;

  test.each(pages)("opens %s without an error, a request or a fault of access", async (_, path) => {
    const { visit } = await import("./browser.ts");
    for (const colorScheme of ["light", "dark"] as const) {
      const seen = await visit(executablePath, path, colorScheme, { access: true });
      expect(seen.errors).toEqual([]);
      expect(seen.requests).toEqual([]);
      expect(seen.violations).toEqual([]);
      expect(seen.dialogs).toEqual([]);
    }
  });

  test("opens the handbook without an error or a request", async () => {
    const { visit } = await import("./browser.ts");
    // Its parts are those of reports; the accessibility engine takes minutes for so long a page.
    const seen = await visit(executablePath, join(ROOT, "reports/handbook.html"), "light");
    expect(seen).toMatchObject({ errors: [], requests: [], dialogs: [] });
  });

  test("the page's table has the figures of the JSON, and paper has every table", async () => {
    const { visit } = await import("./browser.ts");
    const { comparison, tables, printed } = await visit(executablePath, pages[0][1], "light", {
      paper: true,
    });
    const { quantities } = JSON.parse(read(demo, "comparison.json"));
    const names: string[] = JSON.parse(read(demo, "estimate.json")).designs.map(
      ({ name }: { name: string }) => name,
    );
    expect(comparison).toHaveLength(quantities.length);
    for (const [r, { unit, designs }] of quantities.entries()) {
      const there = names.filter((name) => designs[name] !== undefined);
      const laid = formatRow(
        there.map((name) => designs[name]),
        unit,
      );
      const expected = names.map((name) =>
        designs[name] === undefined ? "–" : laid.figures[there.indexOf(name)]!.value,
      );
      expect(comparison[r]).toEqual(expected);
    }
    expect(tables).toBeGreaterThan(8);
    expect(printed).toBeGreaterThan(50_000);
  });
});
