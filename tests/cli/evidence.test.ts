import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { load } from "js-yaml";
import { beforeAll, describe, expect, test } from "vitest";
import { ROOT, scratch, tenfold } from "./run.ts";

interface Result {
  readonly chips: readonly {
    readonly name: string;
    readonly kind: string;
    readonly figures: readonly {
      readonly quantity: string;
      readonly predicted: number;
      readonly measured: number;
      readonly ratio: number;
    }[];
  }[];
  readonly verdicts: readonly { readonly quantity: string; readonly holds?: boolean }[];
  readonly model_error: Readonly<Record<string, { readonly all: { readonly chips: number } }>>;
}

let whole: Result;
beforeAll(() => {
  whole = JSON.parse(tenfold(["evidence", "--format", "json"]).out) as Result;
}, 120_000);

/** The kind of the figure at this place among all. */
const kindOf = (at: number): string =>
  whole.chips.flatMap(({ kind, figures }) => figures.map(() => kind))[at]!;

/** Two of the shipped chips as somebody's own folder. */
function ownFolder(): string {
  const folder = scratch();
  for (const name of ["rram-14nm-1mb", "mram-28nm-1mb"]) {
    cpSync(join(ROOT, "shared/evidence", `${name}.yaml`), join(folder, `${name}.yaml`));
    mkdirSync(join(folder, "chips"), { recursive: true });
    cpSync(join(ROOT, "shared/chips", `${name}.yaml`), join(folder, "chips", `${name}.yaml`));
  }
  writeFileSync(join(folder, "compared.yaml"), OWN_PLAN);
  return folder;
}
const OWN_PLAN = `format: tenfold.evidence/1
chips:
  rram-14nm-1mb:
    kind: resistive
    compared: {cell_area: cell_area}
    defaulted: tile, banks
  mram-28nm-1mb:
    kind: magnetic
    compared: {read_latency: read_latency, write_latency: write_latency}
    defaulted: tile
`;

/** The folder with one file changed. */
function changed(folder: string, file: string, from: string | RegExp, to: string): void {
  const path = join(folder, file);
  const text = readFileSync(path, "utf8");
  const made = text.replace(from, to);
  expect(made).not.toBe(text);
  writeFileSync(path, made);
}

describe("tenfold evidence", () => {
  test("gives every ratio as predicted over published, in all formats", () => {
    const rows = whole.chips.flatMap(({ figures }) => figures);
    expect(rows.length).toBeGreaterThanOrEqual(50);
    for (const { predicted, measured, ratio } of rows) {
      expect(ratio).toBeCloseTo(predicted / measured, 12);
    }
    const magnetic = ["evidence", "--kind", "magnetic"];
    const of = rows.filter((_, i) => kindOf(i) === "magnetic");
    const csv = tenfold([...magnetic, "--format", "csv"])
      .out.trimEnd()
      .split("\r\n");
    expect(csv[0]).toMatch(/^chip,kind,quantity,predicted,predicted_unit,published/);
    expect(csv).toHaveLength(of.length + 1);
    for (const format of ["markdown", "html", "latex"]) {
      const { code, out } = tenfold([...magnetic, "--format", format]);
      expect(code, format).toBe(0);
      expect(out, format).toContain("Against the stated bounds");
      expect(out, format).toContain("What the papers do not state");
      expect(out.includes("<svg"), format).toBe(format === "html");
    }
  });

  test("keeps to eighty columns", () => {
    const lines = tenfold(["evidence"], { env: { COLUMNS: "80" } }).out.split("\n");
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(80);
  });

  test("says the model error of the file that estimates read", () => {
    const file = load(readFileSync(join(ROOT, "shared/evidence/model-error.yaml"), "utf8")) as {
      quantities: Record<string, { all: { chips: number } }>;
    };
    expect(Object.keys(file.quantities)).toEqual(Object.keys(whole.model_error));
    for (const [quantity, { all }] of Object.entries(file.quantities)) {
      expect(all.chips, quantity).toBe(whole.model_error[quantity]!.all.chips);
    }
  });

  test("shows the chips of one kind, and names the nearest kind to a wrong word", () => {
    const one = tenfold(["evidence", "--kind", "resistive", "--format", "json"]);
    const kinds = (JSON.parse(one.out) as Result).chips.map(({ kind }) => kind);
    expect(new Set(kinds)).toEqual(new Set(["resistive"]));
    const wrong = tenfold(["evidence", "--kind", "resistiv"]);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain("resistive");
  });

  test("ends with 1 under --require exactly where a bound does not hold", () => {
    const broken = whole.verdicts.some(({ holds }) => holds === false);
    const { code, out } = tenfold(["evidence", "--require", "--format", "json"]);
    expect(code).toBe(broken ? 1 : 0);
    expect((JSON.parse(out) as Result).verdicts).toEqual(whole.verdicts);
  });

  test("draws a chart with a panel for each quantity and a mark for each figure", () => {
    const chart = join(scratch(), "chart.svg");
    const command = ["evidence", "--kind", "magnetic", "--chart", chart];
    expect(tenfold(command).code).toBe(0);
    const svg = readFileSync(chart, "utf8");
    const rows = whole.chips
      .filter(({ kind }) => kind === "magnetic")
      .flatMap(({ figures }) => figures);
    expect(svg.match(/<title>/g)).toHaveLength(rows.length);
    const panels = new Set(rows.map(({ quantity }) => quantity)).size;
    expect(svg.match(/>published/g)).toHaveLength(panels);
    expect(svg.match(/>predicted/g)).toHaveLength(panels);
    expect(tenfold(command).code).toBe(2);
    expect(tenfold([...command, "--force"]).code).toBe(0);
  });
});

describe("chips of the user's own", () => {
  test("are predicted as the shipped ones are", () => {
    const { code, out, err } = tenfold(["evidence", "--chips", ownFolder(), "--format", "json"]);
    expect(err).toBe("");
    expect(code).toBe(0);
    const { chips } = JSON.parse(out) as Result;
    expect(chips.map(({ name }) => name)).toEqual(["rram-14nm-1mb", "mram-28nm-1mb"]);
    for (const { name, figures } of chips) {
      const shipped = whole.chips.find((one) => one.name === name)!.figures;
      for (const { quantity, ratio } of figures) {
        expect(ratio).toBe(shipped.find((one) => one.quantity === quantity)!.ratio);
      }
    }
  });

  test("may lie in two folders side by side, as the shipped ones do", () => {
    const kind = ["--kind", "floating-gate", "--format", "json"];
    const own = JSON.parse(tenfold(["evidence", "--chips", "shared/evidence", ...kind]).out);
    const shipped = whole.chips.filter((one) => one.kind === "floating-gate");
    expect((own as Result).chips).toEqual(shipped);
  });

  test("may be compared with figures of the catalogue, and need no source in their own", () => {
    const folder = ownFolder();
    changed(folder, "chips/mram-28nm-1mb.yaml", /, source: mram-28nm-1mb, basis: \w+/g, "");
    expect(tenfold(["evidence", "--chips", folder]).code).toBe(0);
    for (const file of readdirSync(join(folder, "chips"))) {
      writeFileSync(join(folder, "chips", file), "");
    }
    expect(tenfold(["evidence", "--chips", folder]).code).toBe(2);
  });

  test("are held to the same bounds: eight chips far off end with 1", () => {
    const folder = scratch();
    const names = Array.from({ length: 8 }, (_, i) => `own-${i + 1}`);
    mkdirSync(join(folder, "chips"));
    const chip = readFileSync(join(ROOT, "shared/chips/rram-14nm-1mb.yaml"), "utf8");
    const study = readFileSync(join(ROOT, "shared/evidence/rram-14nm-1mb.yaml"), "utf8");
    for (const name of names) {
      writeFileSync(join(folder, `${name}.yaml`), study);
      const far = chip.replace(/^name: .*/m, `name: ${name}`).replace("0.022 um^2", "0.1 um^2");
      writeFileSync(join(folder, "chips", `${name}.yaml`), far);
    }
    const planned = names.map(
      (name) => `  ${name}: {kind: resistive, compared: {cell_area: cell_area}, defaulted: tile}\n`,
    );
    const plan = `format: tenfold.evidence/1\nchips:\n${planned.join("")}`;
    writeFileSync(join(folder, "compared.yaml"), plan);
    expect(tenfold(["evidence", "--chips", folder]).code).toBe(0);
    const { code, out } = tenfold(["evidence", "--chips", folder, "--require"]);
    expect(code).toBe(1);
    expect(out).toContain("does not hold");
  });

  test.each([
    [
      "compared.yaml",
      "cell_area: cell_area",
      "cell_aera: cell_area",
      /:5:\d+.*cell_aera/s,
      "cell_area",
    ],
    [
      "compared.yaml",
      "cell_area: cell_area",
      "cell_area: cell_aera",
      /:5:\d+.*cell_aera/s,
      "cell_area",
    ],
    [
      "compared.yaml",
      "cell_area: cell_area",
      "cell_area: density",
      /:5:\d+.*no `density`/s,
      "density",
    ],
    [
      "compared.yaml",
      "    defaulted: tile\n",
      "",
      /mram-28nm-1mb.*defaulted|defaulted.*/s,
      "defaulted",
    ],
    ["compared.yaml", "evidence/1", "evidence/9", /:1:\d+/, "tenfold.evidence/1"],
    [
      "compared.yaml",
      "rram-14nm-1mb:",
      "rram-14nm-1nb:",
      /:3:\d+.*no study/s,
      "rram-14nm-1mb.yaml",
    ],
    [
      "rram-14nm-1mb.yaml",
      "designs:\n  chip:",
      "designs:\n  other: {cell: sram-6t, capacity: 1 Kib, word: 8 bit}\n  one:",
      /rram-14nm-1mb\.yaml:\d+:\d+.*several designs/s,
      "`chip`",
    ],
    [
      "rram-14nm-1mb.yaml",
      "capacity: 1 Mib",
      "capacity: 1 MiB/s",
      /rram-14nm-1mb\.yaml:\d+:\d+/,
      "capacity",
    ],
    ["chips/rram-14nm-1mb.yaml", "um^2", "um", /chips\/rram-14nm-1mb\.yaml:\d+:\d+/, "m^2"],
  ])("with a mistake in %s (%s) are refused at its place", (file, from, to, where, said) => {
    const folder = ownFolder();
    changed(folder, file, from, to);
    const { code, err, out } = tenfold(["evidence", "--chips", folder]);
    expect(err).toMatch(where);
    expect(err).toContain(said);
    expect(out).toBe("");
    expect(code).toBe(2);
  });

  test("say all mistakes of all files at once", () => {
    const folder = ownFolder();
    changed(folder, "rram-14nm-1mb.yaml", "capacity: 1 Mib", "capacity: 1 m");
    changed(folder, "mram-28nm-1mb.yaml", "capacity: 1 Mib", "capacity: 1 m");
    const { err } = tenfold(["evidence", "--chips", folder]);
    expect(err).toContain("rram-14nm-1mb.yaml");
    expect(err).toContain("mram-28nm-1mb.yaml");
  });

  test("that are compared with a die need a study of a die, and the other way round", () => {
    const folder = ownFolder();
    changed(folder, "chips/rram-14nm-1mb.yaml", "values:", "values:\n  area: 1 mm^2");
    changed(
      folder,
      "compared.yaml",
      "{cell_area: cell_area}",
      "{macro_area: {figure: area, of: die}}",
    );
    const macro = tenfold(["evidence", "--chips", folder]);
    expect(macro.code).toBe(2);
    expect(macro.err).toMatch(/compared\.yaml:5:\d+.*whole die.*pads: auto/s);
    changed(folder, "rram-14nm-1mb.yaml", "    capacity", "    die: {pads: auto}\n    capacity");
    expect(tenfold(["evidence", "--chips", folder]).code).toBe(0);
    changed(folder, "compared.yaml", "of: die", "of: macro");
    expect(tenfold(["evidence", "--chips", folder]).code).toBe(2);
  });

  test("without a plan are told what a folder holds", () => {
    const { code, err } = tenfold(["evidence", "--chips", scratch()]);
    expect(code).toBe(2);
    expect(err).toContain("compared.yaml");
    expect(err).toContain("chips/NAME.yaml");
  });
});
