import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readPlain } from "../catalogue/read.ts";
import { type EvidencePlan, planFrom } from "../studies/evidence/plan.ts";
import { catalogueFolder } from "./catalogue.ts";
import { type OpenStudy, openText } from "./study.ts";

const FOLDER = "evidence";

function textOf(name: string, folder: string): string {
  return readFileSync(join(folder, FOLDER, name), "utf8");
}

/** What of which chip is compared, from the package's own data. */
export function readEvidencePlan(folder = catalogueFolder()): EvidencePlan {
  return planFrom(readPlain(textOf("compared.yaml", folder), `${FOLDER}/compared.yaml`));
}

/** The study of one chip. */
export async function openEvidenceStudy(
  chip: string,
  folder = catalogueFolder(),
): Promise<OpenStudy> {
  const file = `${FOLDER}/${chip}.yaml`;
  return openText({ text: textOf(`${chip}.yaml`, folder), file }, join(folder, file));
}
