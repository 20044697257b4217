import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { parseFormula } from "../../src/formulas/parse.ts";
import { openText } from "../../src/io/study.ts";
import { testClaims } from "../../src/studies/claim/claims.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";

/** `design quantity` or `claim boundary` to value, low, high. */
export type Figures = Readonly<Record<string, readonly number[]>>;

/** The pinned results of one frozen study. */
export interface Pinned {
  /** Of the study's text: a frozen study never changes. */
  readonly sha256: string;
  /** The note in `.changes/` that explains why figures last moved. */
  readonly explained: string;
  readonly figures: Figures;
}

export function hashOf(text: string): string {
  return createHash("sha256").update(text).digest("hex");
}

/** All reported figures of a study, computed now. */
export async function figuresOf(path: string): Promise<Figures> {
  const text = readFileSync(path, "utf8");
  const { study, catalogue } = await openText({ file: path, text }, path);
  const figures: Record<string, readonly number[]> = {};
  for (const design of estimateStudy(study, catalogue, parseFormula).designs) {
    for (const [quantity, { value, low, high }] of design.figures) {
      figures[`${design.name} ${quantity}`] = [value, low, high];
    }
    design.broken.forEach(({ fails }) => {
      figures[`${design.name}: ${fails}`] = [];
    });
  }
  if (study.claims === undefined) return figures;
  for (const { name, verdicts } of testClaims(study, catalogue, parseFormula).claims) {
    for (const { boundary, saved } of verdicts) {
      const { value, low, high } = saved;
      figures[`claim ${name} ${boundary}`] = [value, low, high];
    }
  }
  return figures;
}

/** What differs by more than a relative 1e-9, one line each. */
export function moved(pinned: Figures, now: Figures): string[] {
  const lines: string[] = [];
  for (const name of new Set([...Object.keys(pinned), ...Object.keys(now)])) {
    const [was, is] = [pinned[name], now[name]];
    if (was === undefined) lines.push(`${name}: is new`);
    else if (is === undefined) lines.push(`${name}: is gone`);
    else if (was.some((x, i) => Math.abs(x - is[i]!) > 1e-9 * Math.abs(x))) {
      lines.push(`${name}: ${was.join(", ")} became ${is.join(", ")}`);
    }
  }
  return lines;
}
