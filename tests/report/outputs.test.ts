import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { problemsText } from "../../src/errors/wording.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { explorerPage } from "../../src/explorer/page.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { type OpenStudy, openText } from "../../src/io/study.ts";
import { headText } from "../../src/io/sweep/form.ts";
import { reopener, sweepSource } from "../../src/io/sweep/open.ts";
import { TextWriter } from "../../src/io/sweep/text.ts";
import { fittable } from "../../src/models/switch/fit-parameters.ts";
import { DIRECT } from "../../src/models/switch/geometry.ts";
import { bibtex, cslItems } from "../../src/report/bibliography.ts";
import { frontChart } from "../../src/report/charts/front.ts";
import { drawLines } from "../../src/report/charts/lines.ts";
import { svgFile } from "../../src/report/charts/svg.ts";
import { drawFit } from "../../src/report/charts/switch-fit.ts";
import { drawLevels } from "../../src/report/charts/switch-levels.ts";
import { drawLoop } from "../../src/report/charts/switch-loop.ts";
import { drawSwitchingTimes } from "../../src/report/charts/switching-times.ts";
import { tornadoChart } from "../../src/report/charts/tornado.ts";
import { voltageMapSvg, voltageMapText } from "../../src/report/crossbar-map.ts";
import { entryDocument, listDocument } from "../../src/report/documents/catalogue.ts";
import { claimDocument } from "../../src/report/documents/claim.ts";
import { claimData } from "../../src/report/documents/claim-data.ts";
import { claimExplanation } from "../../src/report/documents/claim-explanation.ts";
import { claimTable } from "../../src/report/documents/claim-table.ts";
import { comparisonDocument, estimateDocument } from "../../src/report/documents/comparison.ts";
import { comparisonData } from "../../src/report/documents/comparison-data.ts";
import { explanationDocument } from "../../src/report/documents/explanation.ts";
import { organiseDocument } from "../../src/report/documents/organise.ts";
import { organiseData } from "../../src/report/documents/organise-data.ts";
import { reportFiles } from "../../src/report/documents/report/files.ts";
import { solveDocument } from "../../src/report/documents/solve.ts";
import { sourcesDocument } from "../../src/report/documents/sources.ts";
import { standbyData, standbyDocument } from "../../src/report/documents/standby.ts";
import { switchData, switchDocument } from "../../src/report/documents/switch.ts";
import { fitData, fitDocument } from "../../src/report/documents/switch-fit.ts";
import { levelsData, levelsDocument } from "../../src/report/documents/switch-levels.ts";
import { uncertaintyDocument } from "../../src/report/documents/uncertainty.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { testClaims } from "../../src/studies/claim/claims.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { estimateData } from "../../src/studies/estimate-data.ts";
import { explainQuantity, studySources } from "../../src/studies/explain.ts";
import { organiseStudy } from "../../src/studies/organise/study.ts";
import { answerData, solveFile } from "../../src/studies/solve/file.ts";
import { standbyOfStudy } from "../../src/studies/standby/study.ts";
import { sweepTables } from "../../src/studies/sweep/chunk.ts";
import { planSweep } from "../../src/studies/sweep/plan.ts";
import { fitMeasured } from "../../src/studies/switch/fit.ts";
import { studyLevels } from "../../src/studies/switch/levels.ts";
import { readMeasured } from "../../src/studies/switch/measured.ts";
import { geometryOf, levelsSwitchOf, studySwitch } from "../../src/studies/switch/switch.ts";
import { uncertaintyOfStudy } from "../../src/studies/uncertainty/study.ts";
import {
  expectBibtex,
  expectCsv,
  expectHarmless,
  expectHtml,
  expectLatex,
  expectMarkdown,
  expectPlainText,
  expectSvg,
} from "./harmless.ts";
import { ALL, hostileStudy } from "./hostile-study.ts";
import { PAYLOADS } from "./payloads.ts";

const PROVENANCE = { sha256: "0".repeat(64), version: "0" };
const TEXTS = [ALL, ...Object.values(PAYLOADS)];

let all: OpenStudy;
/** Few designs, for what takes time with each. */
let few: OpenStudy;
let fewText: string;

beforeAll(async () => {
  const open = (text: string) => openText({ file: "s.yaml", text }, "s.yaml");
  all = await open(hostileStudy(TEXTS));
  fewText = hostileStudy([ALL, "=1+1"], {
    claims: {
      small: {
        sentence: ALL,
        subject: "d1",
        function: "routing-switch",
        number: 3,
        comparison: "at least",
      },
    },
    sweep: { vary: { temperature: ["20 degC", "40 degC"] } },
    organise: {
      design: "d1",
      vary: { rows: [64, 128, 256], column_share: [2, 4, 8] },
      minimise: ["macro_area", "read_latency"],
    },
    standby: { period: "10 min", active_time: "2 s", reads: 100, writes: 20 },
    uncertainty: { quantities: ["macro_area"], most_draws: 1024 },
  });
  few = await open(fewText);
});

describe("hostile text of a study comes out harmless from", () => {
  test("estimate and compare", () => {
    const estimate = estimateStudy(all.study, all.catalogue, parseFormula);
    expectHarmless(estimateDocument(estimate), estimateData(estimate, PROVENANCE));
    expectHarmless(comparisonDocument(estimate), comparisonData(estimate, PROVENANCE));
  });

  test("explain, for each text", () => {
    for (let i = 0; i < TEXTS.length; i++) {
      const found = explainQuantity(
        all.study,
        all.catalogue,
        parseFormula,
        "on_resistance",
        `d${i}`,
        3,
      );
      expectHarmless(explanationDocument(found), found.derivation);
    }
  });

  test("sources, BibTeX and CSL", () => {
    const references = studySources(all.study, all.catalogue, parseFormula);
    expectHarmless(sourcesDocument(all.study.title, references), references);
    const hostile = TEXTS.map((text, i) => ({
      ...references[0]!,
      type: "published" as const,
      key: `${i}${text.slice(0, 100)}`,
      title: text,
      venue: text,
      doi: text,
      isbn: text,
      note: text,
    }));
    expectBibtex(bibtex(hostile));
    expect(bibtex(hostile).match(/^@misc/gm)).toHaveLength(TEXTS.length);
    expectPlainText(renderJson(cslItems(hostile)));
    expectHarmless(sourcesDocument(ALL, hostile), hostile);
  });

  test("list and show, for entries of one's own", () => {
    expectHarmless(listDocument(all.catalogue));
    expectHarmless(listDocument(all.catalogue, "switch"));
    for (let i = 0; i < TEXTS.length; i++) {
      const entry = all.catalogue.find("switch", `own-${i}`);
      expectHarmless(entryDocument(entry), entry);
    }
  });

  test("claim, its table, ledger, explanation and chart", () => {
    const tested = testClaims(few.study, few.catalogue, parseFormula);
    expectHarmless(claimDocument(tested, { ledger: true }), claimData(tested, PROVENANCE));
    expectHarmless(claimTable(tested));
    expectHarmless(claimExplanation(tested, "function_boundary_transistors", 2));
    for (const text of TEXTS) {
      const chart = drawLines({
        title: text,
        description: text,
        x: { label: text, ticks: [1, 2], tickText: () => text.slice(0, 50) },
        y: { label: text, from: 0, to: 2 },
        marks: [{ y: 1, text }],
        series: [{ name: text, points: [1, 2].map((x) => ({ x, y: 1, low: 1, high: 1 })) }],
      });
      expectSvg(chart);
    }
  });

  test("organise and its chart", async () => {
    const source = await sweepSource({ file: "s.yaml", text: fewText }, "s.yaml", [], 1);
    const result = organiseStudy(reopener(source), parseFormula);
    expectHarmless(organiseDocument(result), organiseData(result, PROVENANCE));
    expectSvg(svgFile(frontChart(result)));
  });

  test("standby", () => {
    const result = standbyOfStudy(few.study, few.catalogue, parseFormula);
    expectHarmless(standbyDocument(result), standbyData(result, PROVENANCE));
  });

  test("uncertainty and its chart", () => {
    const result = uncertaintyOfStudy(few.study, few.catalogue, parseFormula, { design: "d1" });
    expectHarmless(uncertaintyDocument(result));
    const [design] = result.designs;
    for (const text of TEXTS) {
      expectSvg(svgFile(tornadoChart(text, { ...design!.quantities[0]!, label: text })));
    }
  });

  test("a sweep in CSV and JSON lines, with its first line", async () => {
    const source = await sweepSource({ file: "s.yaml", text: fewText }, "s.yaml", [], 1);
    const plan = planSweep(reopener(source), parseFormula);
    for await (const table of sweepTables(plan)) {
      expectCsv(Buffer.from(new TextWriter("csv").write(table)).toString());
      expectPlainText(Buffer.from(new TextWriter("jsonl").write(table)).toString());
    }
    for (const text of [...TEXTS, "a,=1+1", "a;=1+1", 'a",=1+1']) {
      const name = text.slice(0, 80);
      const head = {
        format: "tenfold.sweep/1" as const,
        title: text,
        ...PROVENANCE,
        seed: 1,
        set: [`title=${text}`],
        points: 1,
        columns: [{ name, unit: "", type: "text" as const }],
      };
      const words = { columns: head.columns, count: 1 };
      const data = [{ type: "text" as const, words: [text], codes: new Int32Array(1) }];
      for (const form of ["csv", "jsonl"] as const) {
        const written = headText(head, form);
        expectPlainText(written.replaceAll("\r\n", "\n"));
        const [first] = written.split(/\r?\n/);
        expect(JSON.parse(first!.replace("# tenfold ", ""))).toEqual(head);
        const row = Buffer.from(new TextWriter(form).write({ ...words, data } as never)).toString();
        if (form === "jsonl") {
          expectPlainText(row);
          expect(JSON.parse(row)).toEqual({ [name]: text });
          continue;
        }
        // A spreadsheet cuts the first line at its commas, whatever the quotes in it say.
        for (const cell of first!.split(/[,;]/)) expect(cell).not.toMatch(/^\s*[=+\-@＝＋－＠]/u);
        expectCsv(`${written.split("\r\n")[1]}\r\n${row}`);
      }
    }
  });

  test("switch and its charts", async () => {
    const text = readFileSync(new URL("../../configs/tarn-film.yaml", import.meta.url), "utf8");
    const film = await openText({ file: "film.yaml", text }, "film.yaml");
    const { cell } = resolveDesign(film.study, "film", film.catalogue);
    for (const title of [ALL, PAYLOADS["a spreadsheet formula"]!]) {
      const study = studySwitch({ ...cell.switch!, title }, { temperature: 300 });
      expectHarmless(switchDocument(study), switchData(study));
    }
    const { times, retentionTime, loop } = studySwitch(cell.switch!, { temperature: 300 });
    for (const title of TEXTS) {
      expectSvg(drawSwitchingTimes({ title, times, retention: retentionTime }));
      expectSvg(drawLoop({ title, points: loop.points }));
    }
  });

  test("solve and its map, and what it refuses", () => {
    for (const text of TEXTS) {
      const one = {
        id: "x",
        title: text,
        rows: 2,
        columns: 2,
        wires: { row_resistance: 1, column_resistance: 1 },
        kinds: { on: { law: "ohmic", resistance: 1e4 } },
        pattern: { form: "same", kind: "on" },
        terminals: {
          left: [{ lines: [0], voltage: 1, resistance: 1 }],
          bottom: [{ lines: [0], voltage: 0, resistance: 1 }],
        },
      };
      const solved = solveFile(JSON.stringify(one), "c.yaml");
      expectHarmless(solveDocument(solved), answerData(solved));
      const map = {
        rows: 1,
        columns: 1,
        voltages: new Float64Array([1]),
        title: text,
        legend: text,
      };
      expectSvg(voltageMapSvg(map));
      expectPlainText(voltageMapText({ ...map, legend: undefined }));
    }
  });

  test("every file of a report", async () => {
    const estimate = estimateStudy(all.study, all.catalogue, parseFormula);
    const references = studySources(all.study, all.catalogue, parseFormula);
    const files = reportFiles({
      estimate,
      further: [],
      provenance: PROVENANCE,
      references,
      command: `tenfold report ${ALL}`,
    });
    const checks: Record<string, (text: string) => void> = {
      md: expectMarkdown,
      html: expectHtml,
      tex: expectLatex,
      json: expectPlainText,
      bib: expectBibtex,
      svg: expectSvg,
      csv: expectCsv,
    };
    for (const [name, text] of files) {
      expect(name).toMatch(/^(?:(?:charts|tables)\/)?[\w-]+\.\w+$/);
      checks[name.split(".")[1]!]!(text);
    }
  });

  test("the explorer page", () => {
    const parts = { script: "", scriptHash: "", style: "", styleHash: "", engine: "" };
    for (const text of TEXTS) {
      const page = explorerPage(
        {
          text,
          file: text,
          version: "0",
          command: text,
          entries: {},
          document: { title: text, subtitle: text, blocks: [{ kind: "paragraph", text }] },
        },
        parts,
      );
      expectHtml(
        page,
        "script header button details summary label input section textarea".split(" "),
      );
      expect(page.match(/<script/g)).toHaveLength(3);
    }
  });
});

describe("hostile text in a mistake", () => {
  test.each(Object.entries(PAYLOADS))("comes out harmless: %s", async (_, payload) => {
    const key = payload.slice(0, 300);
    const files = [
      { [key]: 1 },
      { title: "x", technology: payload, designs: { [key]: { cell: payload } } },
      { title: "x", designs: { a: { cell: "sram-6t", capacity: payload, word: payload } } },
      { title: "x", designs: {}, catalogue: { files: [payload] } },
      { title: "x", designs: { a: { cell: { switch: { from: payload, [key]: payload } } } } },
    ];
    for (const file of [...files.map((one) => JSON.stringify(one)), `a: [\n${payload}`, payload]) {
      try {
        await openText({ file: `${key}.yaml`, text: file }, "s.yaml");
      } catch (error) {
        const { problems } = error as { problems: Parameters<typeof problemsText>[0] };
        expect(problems.length).toBeGreaterThan(0);
        expectPlainText(problemsText(problems));
        expectPlainText(renderJson(problems));
      }
    }
  });
});

test("a fit to a file of a hostile name, and levels of a switch of a hostile title, come out harmless", async () => {
  const text = readFileSync(new URL("../../configs/tarn-film.yaml", import.meta.url), "utf8");
  const film = await openText({ file: "film.yaml", text }, "film.yaml");
  const resolved = {
    ...resolveDesign(film.study, "film", film.catalogue).cell.switch!,
    title: ALL,
  };
  const { times } = studySwitch(resolved, { temperature: 300 });
  const points = times.map(({ voltage, set }) => `${voltage},${set}`).join("\n");
  const start = { geometry: geometryOf(resolved, 300), circuit: DIRECT };
  const fitted = fitMeasured(
    readMeasured(`voltage,time\n${points}\n`, ALL),
    start,
    fittable(["barrier_height"]),
    { refits: 0 },
  );
  expectHarmless(fitDocument(fitted), fitData(fitted));
  const { kind, fit } = fitted;
  expectSvg(
    drawFit({ title: `Fit to ${ALL}`, kind, points: fitted.points, residuals: fit.residuals }),
  );
  const levels = studyLevels(levelsSwitchOf(resolved, 300), { levels: 2 });
  expectHarmless(levelsDocument(levels), levelsData(levels));
  expectSvg(drawLevels({ title: ALL, levels: levels.levels }));
});
