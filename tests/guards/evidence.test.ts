// What a constant of the models was taken from is no evidence for the models.
import { readdirSync, readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect, test } from "vitest";
import { readEvidencePlan } from "../../src/io/evidence.ts";

const SHARED = new URL("../../shared/", import.meta.url);
const read = (path: string) => load(readFileSync(new URL(path, SHARED), "utf8"));
const files = (folder: string) => readdirSync(new URL(`${folder}/`, SHARED));

interface Calibration {
  constants: Record<string, { chip: string; figure: string }[]>;
}
const { constants } = read("evidence/calibration.yaml") as Calibration;
const used = Object.values(constants).flat();
const CHIPS = new Set(files("chips").map((file) => file.replace(".yaml", "")));

test("no figure of a chip is both in the evidence and behind a constant", () => {
  const key = ({ chip, figure }: { chip: string; figure: string }) => `${chip} ${figure}`;
  const compared = readEvidencePlan().chips.flatMap(({ name, compared: quantities }) =>
    quantities.map(([, figure]) => key({ chip: name, figure })),
  );
  expect(compared.filter((one) => used.map(key).includes(one))).toEqual([]);
});

test("calibration names chips and figures that there are", () => {
  for (const { chip, figure } of used) {
    expect(CHIPS.has(chip), chip).toBe(true);
    const { values } = read(`chips/${chip}.yaml`) as { values: Record<string, unknown> };
    expect(Object.keys(values), chip).toContain(figure);
  }
});

test("every constant whose source is a chip is registered as calibration", () => {
  for (const folder of ["baselines", "technology", "switches", "selectors"]) {
    for (const file of files(folder)) {
      const { name, values } = read(`${folder}/${file}`) as {
        name: string;
        values?: Record<string, { source?: string }>;
      };
      for (const [constant, { source }] of Object.entries(values ?? {})) {
        if (source === undefined || !CHIPS.has(source)) continue;
        const chips = constants[`${folder}/${name} ${constant}`]?.map(({ chip }) => chip);
        expect(chips, `${folder}/${name} ${constant}`).toContain(source);
      }
    }
  }
});
