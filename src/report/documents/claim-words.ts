import { formatQuantity } from "../../quantities/format.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { Window } from "../../studies/claim/capacity.ts";
import type { TestedClaim } from "../../studies/claim/claims.ts";
import type { Crossing } from "../../studies/claim/crossing.ts";
import type { Verdict } from "../../studies/claim/verdict.ts";
import type { EstimatedFigure } from "../../studies/figures.ts";

const PREFIXES = ["", "Ki", "Mi", "Gi", "Ti"];

/** A count with the largest binary prefix that leaves it whole. */
export function binary(count: number): string {
  let step = 0;
  let left = count;
  while (left >= 1024 && left % 1024 === 0 && step < PREFIXES.length - 1) {
    left /= 1024;
    step += 1;
  }
  return step === 0 ? String(left) : `${left} ${PREFIXES[step]}`;
}

/** The claim as a sentence; made of its parts where the file has none. */
export function sentenceOf({ claim, definition }: TestedClaim): string {
  const { sentence, comparison = "at least", number } = claim;
  return (
    sentence ??
    `One switch replaces ${comparison} ${number.value} transistors: ${definition.title.toLowerCase()}`
  );
}

/** `6.7 (4.5 – 7.3)`. */
export function figureText(figure: EstimatedFigure): string {
  return formatQuantity(figure, "1");
}

/** A share of draws; never all and never none of them when it isn't. */
export function drawsText(share: number): string {
  if (share > 0 && share < 0.01) return "< 1 %";
  if (share < 1 && share > 0.99) return "> 99 %";
  return `${Math.round(100 * share)} %`;
}

/** The capacities at which a claim holds. */
export function windowText(window: Window | undefined): string {
  if (window === undefined) return "none";
  const { from, to } = window;
  if (from !== undefined && to !== undefined) return `${binary(from)} to ${binary(to)}`;
  if (from !== undefined) return `from ${binary(from)}`;
  return to === undefined ? "any" : `up to ${binary(to)}`;
}

export function valueText({ unit }: Parameter, value: number): string {
  return formatQuantity({ value }, unit);
}

/** A verdict with its condition. */
export function verdictText({ verdict, when }: Verdict): string {
  if (when === undefined) return verdict;
  if (when.kind === "capacity") return `${verdict} the capacity is ${windowText(when.window)}`;
  if (when.kind === "known") {
    const { parameter } = when;
    return `${verdict} ${parameter.name} is known to be ${valueText(parameter, parameter.value)}`;
  }
  const { parameter, value, above } = when;
  return `${verdict} ${parameter.name} is ${above ? "at least" : "at most"} ${valueText(parameter, value)}`;
}

/** Where a claim turns as one parameter moves. */
export function crossingText({ parameter, value, inRange, from, to }: Crossing): string {
  const { name, low, high } = parameter;
  const now = `now ${valueText(parameter, parameter.value)}`;
  if (value === undefined) {
    const searched = `${valueText(parameter, from)} to ${valueText(parameter, to)}`;
    return `${name}: no value makes the number true (${now}; searched ${searched})`;
  }
  const range =
    low === high
      ? ""
      : inRange
        ? ", inside its range"
        : `, outside its range ${valueText(parameter, low)} to ${valueText(parameter, high)}`;
  return `${name}: ${valueText(parameter, value)} makes the number true (${now}${range})`;
}
