import type { Catalogue, Reference } from "../../catalogue/index.ts";
import { nearestWord } from "../../errors/nearest.ts";
import { refuse, TenfoldError } from "../../errors/problem.ts";
import { FUNCTIONS, type FunctionDefinition } from "../../estimate/functions/index.ts";
import { BOUNDARIES, type Boundary } from "../../estimate/ledger.ts";
import type { Parser } from "../../formulas/expand.ts";
import { type Claim, type Claims, EVERY_FUNCTION } from "../../schema/claims.ts";
import type { Study } from "../../schema/study.ts";
import { type Remedy, remediesOf } from "./remedies.ts";
import { type Setting, Sides } from "./sides.ts";
import { claimSources } from "./sources.ts";
import { type Survey, surveyOf } from "./survey.ts";
import {
  type Costs,
  costsOf,
  type Question,
  type Verdict,
  type VerdictWord,
  verdictsOf,
  weakest,
} from "./verdict.ts";

/** One claim of a study, tested. */
export interface TestedClaim {
  readonly name: string;
  readonly claim: Claim;
  readonly definition: FunctionDefinition;
  readonly sides: Sides;
  readonly question: Question;
  readonly verdicts: readonly Verdict[];
  /** The weakest of its verdicts. */
  readonly overall: VerdictWord;
  readonly costs: Costs;
  /** What alone would make the number true, nearest first; empty where it is true. */
  readonly remedies: readonly Remedy[];
  /** What keeps a side from working at the nominal figures. */
  readonly broken: readonly string[];
}

/** All claims of a study, tested. */
export interface TestedStudy {
  readonly study: Study;
  readonly claims: readonly TestedClaim[];
  /** The claims about all functions. */
  readonly surveys: readonly Survey[];
  /** What the values and formulas of the claims rest on, those about all functions left out. */
  readonly references: readonly Reference[];
}

const DEFAULT_WITHIN = 0.2;
const DEFAULT_HOLDS_WITH = 0.95;

/**
 * Tests every claim of a study.
 *
 * @param study read with the definition of `claims.ts`
 * @param catalogue with the study's own entries
 * @param parse text to tree, see `formulas`
 * @throws TenfoldError `no-claims`, `unknown-design`, and what designs are refused for, of all
 * claims
 */
export function testClaims(study: Study, catalogue: Catalogue, parse: Parser): TestedStudy {
  const claims = claimsOf(study);
  const problems: TenfoldError["problems"][number][] = [];
  const tested: TestedClaim[] = [];
  const surveys: Survey[] = [];
  for (const [name, claim] of Object.entries(claims)) {
    try {
      const setting = settingOf(study, name, claim);
      const question = questionOf(study, claim);
      if (claim.function === EVERY_FUNCTION) {
        surveys.push(surveyOf(study, name, claim, setting, question, catalogue, parse));
        continue;
      }
      tested.push(testClaim(study, name, claim, catalogue, parse));
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      const path = `/claims/${name}`;
      problems.push(...error.problems.map((one) => ({ path, place: study.place(path), ...one })));
    }
  }
  if (problems.length > 0) throw new TenfoldError(problems);
  const references = claimSources(
    tested.map(({ sides }) => sides),
    catalogue,
  );
  return { study, claims: tested, surveys, references };
}

function claimsOf(study: Study): Claims {
  const claims = study.claims as unknown as Claims | undefined;
  if (claims !== undefined && Object.keys(claims).length > 0) return claims;
  return refuse({
    code: "no-claims",
    what: `${study.file} has no claims`,
    expected:
      "a section `claims:` with a name for each, such as " +
      "`match-table: {subject: hybrid, function: ternary-match, number: 10}`",
  });
}

function testClaim(
  study: Study,
  name: string,
  claim: Claim,
  catalogue: Catalogue,
  parse: Parser,
): TestedClaim {
  const definition = FUNCTIONS.find((one) => one.name === claim.function)!;
  const sides = new Sides(definition, study, settingOf(study, name, claim), catalogue, parse);
  const question = questionOf(study, claim);
  const verdicts = verdictsOf(sides, question);
  return {
    name,
    claim,
    definition,
    sides,
    question,
    verdicts,
    overall: weakest(verdicts),
    costs: costsOf(sides, question),
    remedies: remediesOf(sides, question),
    broken: brokenOf(sides),
  };
}

/** What keeps either side from working at the nominal figures, as sentences. */
function brokenOf({ hybrid, baseline }: Sides): readonly string[] {
  return [hybrid, baseline].flatMap((side) => {
    const figures = side.at();
    return side.conditions
      .filter(({ quantity }) => !(figures.get(quantity)! > 0))
      .map(({ fails, fix }) => `${fails}. What may help: ${fix}.`);
  });
}

function settingOf(study: Study, name: string, claim: Claim): Setting {
  const { subject, capacity, word, banks, technology, sizes, count } = claim;
  checkSubject(study, name, subject);
  return {
    subject,
    ...(capacity === undefined ? {} : { capacity }),
    ...(word === undefined ? {} : { word }),
    ...(banks === undefined ? {} : { banks }),
    ...(technology === undefined ? {} : { technology }),
    ...(count === undefined ? {} : { counting: count }),
    sizes: Object.fromEntries(
      Object.entries(sizes ?? {}).map(([size, { value }]) => [size, value]),
    ),
  };
}

/** A claim is about a design with a switch. */
function checkSubject(study: Study, name: string, subject: string): void {
  const path = `/claims/${name}/subject`;
  const place = study.place(path);
  const names = Object.keys(study.designs);
  if (!names.includes(subject)) {
    const nearest = nearestWord(subject, names);
    refuse({
      code: "unknown-design",
      what: `the study has no design \`${subject}\``,
      path,
      place,
      expected: `one of ${names.join(", ")}`,
      ...(nearest === undefined ? {} : { nearest }),
    });
  }
  if (study.designs[subject]!.cell?.switch !== undefined) return;
  refuse({
    code: "no-switch",
    what: `the subject \`${subject}\` has no switch that could replace transistors`,
    path,
    place,
    expected: "a design whose cell has a `switch`",
  });
}

function questionOf(study: Study, claim: Claim): Question {
  const { number, comparison = "at least", within, boundary = "all", holds_with } = claim;
  return {
    wanted: { number: number.value, comparison, within: within?.value ?? DEFAULT_WITHIN },
    boundaries: boundary === "all" ? BOUNDARIES : [boundary as Boundary],
    holdsWith: holds_with?.value ?? DEFAULT_HOLDS_WITH,
    solveFor: claim.solve_for ?? [],
    seed: study.seed,
    samples: study.samples,
    coverage: study.coverage,
  };
}
