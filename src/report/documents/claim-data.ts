import type { TestedClaim, TestedStudy } from "../../studies/claim/claims.ts";
import type { Crossing } from "../../studies/claim/crossing.ts";
import type { Survey } from "../../studies/claim/survey.ts";
import type { Verdict, When } from "../../studies/claim/verdict.ts";
import type { Provenance } from "../../studies/estimate-data.ts";

/** `tenfold.claims/1`: verdicts, numbers, limits, crossings, in SI. */
export function claimData(
  { study, claims, surveys, references }: TestedStudy,
  provenance: Provenance,
): object {
  const { title, seed, samples, coverage } = study;
  return {
    format: "tenfold.claims/1",
    study: { title, ...provenance, seed, samples, coverage },
    claims: claims.map(oneClaim),
    surveys: surveys.map(oneSurvey),
    sources: references.map(({ key, type }) => ({ key, type })),
  };
}

function oneClaim(tested: TestedClaim): object {
  const { name, claim, definition, sides, question, verdicts, overall, costs, remedies, broken } =
    tested;
  return {
    name,
    ...(claim.sentence === undefined ? {} : { sentence: claim.sentence }),
    function: definition.name,
    subject: claim.subject,
    capacity: sides.capacity,
    element: definition.element,
    operation: definition.operation,
    ...question.wanted,
    holds_with: question.holdsWith,
    counting: sides.counting,
    verdict: overall,
    boundaries: verdicts.map(oneVerdict),
    hybrid_over_baseline: costs,
    remedies: remedies.map(({ boundary, crossing }) => ({ boundary, ...crossingData(crossing) })),
    broken,
    leaves_out: definition.leavesOut,
  };
}

function oneVerdict(verdict: Verdict): object {
  const { boundary, saved, share, capacities, capacityTurn, limit, drivers, asked, when } = verdict;
  return {
    boundary,
    verdict: verdict.verdict,
    saved_per_switch: saved,
    share_of_draws: share,
    holds_at_capacities: capacities ?? null,
    capacity_turn: capacityTurn ?? null,
    limit,
    drivers: drivers.map(({ crossing, atLow, atHigh }) => ({
      ...crossingData(crossing),
      saved_at_low: atLow,
      saved_at_high: atHigh,
    })),
    asked: asked.map(crossingData),
    ...(when === undefined
      ? {}
      : {
          when: whenData(when),
        }),
  };
}

function whenData(when: When): object {
  switch (when.kind) {
    case "capacity":
      return { capacity: when.window };
    case "known":
      return { parameter: when.parameter.name, known_to_be: when.parameter.value };
    case "parameter":
      return { parameter: when.parameter.name, value: when.value, above: when.above };
  }
}

function crossingData({ parameter, value, inRange }: Crossing): object {
  const { name, unit, low, high } = parameter;
  return {
    parameter: name,
    unit,
    nominal: parameter.value,
    low,
    high,
    turns_at: value ?? null,
    in_range: inRange,
  };
}

function oneSurvey({ name, boundary, capacities, rows, question }: Survey): object {
  return {
    name,
    boundary,
    ...question.wanted,
    capacities,
    functions: rows.map(({ definition, points }) => ({
      function: definition.name,
      title: definition.title,
      points: points.map(({ saved, share }) => ({ ...saved, share_of_draws: share })),
    })),
  };
}
