// What a constant of the models was taken from is no evidence for the models.
import { readdirSync, readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect, test } from "vitest";
import { readCalibrated, shippedCatalogue, shippedEvidence } from "../../src/io/evidence.ts";
import { figuresBehind, fitSpreads, fitted } from "../../src/studies/evidence/fit.ts";

const SHARED = new URL("../../shared/", import.meta.url);
const read = (path: string) => load(readFileSync(new URL(path, SHARED), "utf8"));
const files = (folder: string) => readdirSync(new URL(`${folder}/`, SHARED));

interface Values {
  readonly name: string;
  readonly values?: Readonly<Record<string, { readonly source?: string; readonly basis?: string }>>;
}

const CALIBRATED = readCalibrated();
const used = CALIBRATED.flatMap(figuresBehind);
const CHIPS = new Map(
  files("chips").map((file) => {
    const { name, values = {} } = read(`chips/${file}`) as Values;
    return [name, values] as const;
  }),
);
/** A paper by whatever key it is cited → the chip that it describes. */
const PAPERS = new Map(
  [...CHIPS].flatMap(([chip, values]) =>
    Object.values(values).flatMap(({ source }) => (source === undefined ? [] : [[source, chip]])),
  ) as [string, string][],
);

test("no figure of a chip is both in the evidence and behind a constant", async () => {
  const key = ({ chip, figure }: { chip: string; figure: string }) => `${chip} ${figure}`;
  const { plan } = await shippedEvidence();
  const compared = plan.chips.flatMap(({ name, compared: figures }) =>
    figures.map(({ figure }) => key({ chip: name, figure })),
  );
  expect(compared.filter((one) => used.map(key).includes(one))).toEqual([]);
});

test("calibration names chips and figures that there are", () => {
  for (const { chip, figure } of used) {
    expect(Object.keys(CHIPS.get(chip) ?? {}), chip).toContain(figure);
  }
});

test("every constant whose source is the paper of a chip is registered as calibration", () => {
  let found = 0;
  for (const folder of ["baselines", "switches", "selectors"]) {
    for (const file of files(folder)) {
      const { name, values } = read(`${folder}/${file}`) as Values;
      for (const [constant, { source, basis }] of Object.entries(values ?? {})) {
        const chip = source === undefined ? undefined : PAPERS.get(source);
        // What a cell is made of is no measurement.
        if (chip === undefined || basis === "counted") continue;
        const behind = CALIBRATED.find((one) => one.constant === `${name} ${constant}`);
        const chips = behind?.samples.map((sample) => sample.chip);
        expect(chips, `${folder}/${name} ${constant}`).toContain(chip);
        found++;
      }
    }
  }
  expect(found).toBeGreaterThan(5);
});

test("no chip is compared whose paper gave a figure of a technology", async () => {
  const { plan } = await shippedEvidence();
  const given = files("technology").flatMap((file) => {
    const { values = {} } = read(`technology/${file}`) as Values;
    return Object.values(values).flatMap(({ source = "" }) => PAPERS.get(source) ?? []);
  });
  expect(given.length).toBeGreaterThan(0);
  expect(plan.chips.map(({ name }) => name).filter((name) => given.includes(name))).toEqual([]);
});

test("a constant is what its fit to the chips gives, to the digits that it is given with", () => {
  for (const { constant, fit, shipped, samples } of fitSpreads(CALIBRATED, shippedCatalogue())) {
    const value = fitted(
      fit,
      samples.map((sample) => sample.value),
    );
    expect(Math.abs(shipped / value - 1), constant).toBeLessThan(0.02);
  }
});
