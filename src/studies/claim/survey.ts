import type { Catalogue } from "../../catalogue/index.ts";
import { Draws } from "../../estimate/draws.ts";
import { FUNCTIONS, type FunctionDefinition } from "../../estimate/functions/index.ts";
import type { Boundary } from "../../estimate/ledger.ts";
import type { Parser } from "../../formulas/expand.ts";
import { pow } from "../../numerics/special/elementary.ts";
import type { Claim } from "../../schema/claims.ts";
import type { Study } from "../../schema/study.ts";
import { type EstimatedFigure, figureOf } from "../figures.ts";
import { capacityChange } from "./capacity.ts";
import { shareOf } from "./holding.ts";
import { type Setting, Sides } from "./sides.ts";
import type { Question } from "./verdict.ts";

/** One sentence over all functions and some capacities, at one boundary. */
export interface Survey {
  readonly name: string;
  readonly claim: Claim;
  readonly question: Question;
  readonly boundary: Boundary;
  readonly capacities: readonly number[];
  readonly rows: readonly SurveyRow[];
}

export interface SurveyRow {
  readonly definition: FunctionDefinition;
  /** One for each capacity. */
  readonly points: readonly SurveyPoint[];
}

export interface SurveyPoint {
  readonly saved: EstimatedFigure;
  readonly share: number;
}

/** 1 kib to 1 Gib in steps of four. */
const CAPACITIES = Array.from({ length: 11 }, (_, i) => pow(2, 10 + 2 * i));
const MOST_DRAWS = 512;

/** Transistors saved per switch of every function at every capacity, with intervals. */
export function surveyOf(
  study: Study,
  name: string,
  claim: Claim,
  setting: Setting,
  question: Question,
  catalogue: Catalogue,
  parse: Parser,
): Survey {
  const capacities = claim.capacities ?? CAPACITIES;
  const [only] = question.boundaries;
  const boundary = question.boundaries.length === 1 ? only! : "function";
  const draws = new Draws(question.seed, Math.min(question.samples, MOST_DRAWS));
  const rows = FUNCTIONS.map((definition) => {
    const sides = new Sides(definition, study, setting, catalogue, parse);
    const points = capacities.map((capacity) => {
      const change = capacityChange(sides, capacity);
      const samples = sides.savedSamples(boundary, sides.sample(draws, change));
      return {
        saved: figureOf(sides.saved(boundary, change), samples, question.coverage),
        share: shareOf(samples, question.wanted),
      };
    });
    return { definition, points };
  });
  return { name, claim, question, boundary, capacities, rows };
}
