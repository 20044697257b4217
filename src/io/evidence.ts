import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { Catalogue, type Entry, KIND, readEntry } from "../catalogue/index.ts";
import { readPlain } from "../catalogue/read.ts";
import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import type { ChipMatter } from "../studies/evidence/compare.ts";
import { type Calibrated, readCalibration } from "../studies/evidence/fit.ts";
import { readSnapshot, type Snapshot } from "../studies/evidence/history.ts";
import { type EvidencePlan, type PlannedChip, readPlan } from "../studies/evidence/plan.ts";
import { besideStudy } from "./beside.ts";
import { catalogueFolder, folderLoader } from "./catalogue.ts";
import { readText } from "./read.ts";
import { openText } from "./study.ts";

/** Within the catalogue's folder: the plan, a study for each chip, what the models took from chips. */
const FOLDER = "evidence";
const PLAN = "compared.yaml";
const CHIPS = "chips";
const HISTORY = "history";
/** What was changed after each kept version, in words. */
const CHANGED = "changed.yaml";

/** Chips with their studies and the plan of what is compared. */
export interface EvidenceFolder {
  readonly plan: EvidencePlan;
  open(chip: PlannedChip): Promise<ChipMatter>;
}

/** The chips that the package ships. */
export async function shippedEvidence(shared = catalogueFolder()): Promise<EvidenceFolder> {
  const folder = join(shared, FOLDER);
  return {
    plan: await planIn(folder, FOLDER),
    async open({ name }) {
      const file = `${FOLDER}/${name}.yaml`;
      const text = readFileSync(join(folder, `${name}.yaml`), "utf8");
      const { study, catalogue } = await openText({ text, file }, join(shared, file));
      return { study, catalogue, entry: catalogue.find("chip", name) };
    },
  };
}

/**
 * Chips of the user: `compared.yaml`, beside it `NAME.yaml` with the study of each chip, and in
 * `chips/`, within the folder or beside it, `NAME.yaml` with the published figures; without them a
 * chip of the catalogue stands in.
 *
 * @throws TenfoldError for what is missing or wrong, at its place
 */
export async function evidenceIn(folder: string): Promise<EvidenceFolder> {
  const plan = await planIn(folder, folder);
  return {
    plan,
    async open(chip) {
      const path = join(folder, `${chip.name}.yaml`);
      if (!existsSync(path)) missingStudy(plan, chip, path, folder);
      await besideStudy(join(folder, PLAN), basename(path));
      const { study, catalogue } = await openText(await readText(path), path);
      return { study, catalogue, entry: await chipIn(folder, plan, chip, catalogue) };
    },
  };
}

async function planIn(folder: string, shown: string): Promise<EvidencePlan> {
  const path = join(folder, PLAN);
  if (!existsSync(path)) {
    refuse({
      code: "file-missing",
      what: `there is no ${PLAN} in ${folder}`,
      expected:
        `${PLAN} says what of which chip is compared; beside it lie the study of each chip, NAME.yaml, ` +
        `and its published figures, ${CHIPS}/NAME.yaml`,
      fix: "name a folder that has it",
    });
  }
  const { text } = await readText(path);
  return readPlan(text, join(shown, PLAN));
}

function missingStudy(plan: EvidencePlan, { name }: PlannedChip, path: string, folder: string) {
  const there = readdirSync(folder).filter((file) => file.endsWith(".yaml") && file !== PLAN);
  const nearest = nearestWord(`${name}.yaml`, there);
  refuse({
    code: "file-missing",
    what: `the chip ${name} has no study ${path}`,
    place: plan.place(`/chips/${name}`),
    path: `/chips/${name}`,
    expected: "a study with one design, built from what the paper states",
    ...(nearest === undefined ? {} : { nearest }),
  });
}

async function chipIn(
  folder: string,
  plan: EvidencePlan,
  { name }: PlannedChip,
  catalogue: Catalogue,
): Promise<Entry> {
  const file = join(CHIPS, `${name}.yaml`);
  const place = [folder, join(folder, "..")].find((one) => existsSync(join(one, file)));
  if (place !== undefined) {
    const path = join(place, file);
    await besideStudy(join(place, PLAN), file);
    const { text } = await readText(path);
    return readEntry(text, { file: path, kind: "chip", name, source: path });
  }
  if (catalogue.names("chip").includes(name)) return catalogue.find("chip", name);
  return refuse({
    code: "file-missing",
    what: `the chip ${name} has no published figures: there is no ${join(folder, file)}`,
    place: plan.place(`/chips/${name}`),
    path: `/chips/${name}`,
    expected: `a file of the format ${KIND.chip.format}, or the name of a chip of the catalogue`,
  });
}

/** What the models took from chips. */
export function readCalibrated(shared = catalogueFolder()): readonly Calibrated[] {
  const file = "calibration.yaml";
  const text = readFileSync(join(shared, FOLDER, file), "utf8");
  return readCalibration(text, `${FOLDER}/${file}`).constants;
}

/** What earlier versions predicted, the oldest first. */
export function readHistory(shared = catalogueFolder()): readonly Snapshot[] {
  const folder = join(shared, FOLDER, HISTORY);
  const files = readdirSync(folder).filter((file) => file.endsWith(".json"));
  const { versions } = readPlain(
    readFileSync(join(shared, FOLDER, CHANGED), "utf8"),
    `${FOLDER}/${CHANGED}`,
  );
  const changed = versions as Readonly<Record<string, readonly string[]>>;
  return files.sort().map((file) => {
    const text = readFileSync(join(folder, file), "utf8");
    return readSnapshot(text, `${HISTORY}/${file}`, changed);
  });
}

/** The catalogue alone, without a study. */
export const shippedCatalogue = (): Catalogue => new Catalogue(folderLoader());
