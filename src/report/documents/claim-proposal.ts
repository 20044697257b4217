import { formatRatio } from "../../quantities/format.ts";
import type { TestedClaim } from "../../studies/claim/claims.ts";
import type { Verdict } from "../../studies/claim/verdict.ts";
import { binary, drawsText, figureText, verdictText } from "./claim-words.ts";

/** One paragraph that a proposal can take as it stands. */
export function proposalText(tested: TestedClaim, main: Verdict): string {
  const { definition, sides, claim, costs, question } = tested;
  const { comparison = "at least", number } = claim;
  const percent = Math.round(100 * question.coverage);
  const title = definition.title.toLowerCase();
  const size = `${title}, ${binary(sides.capacity)} ${definition.element}`;
  const [area, energy, delay] = [costs.area, costs.energy, costs.delay].map(({ value }) =>
    formatRatio(value),
  );
  const near = `${area} of the area, ${energy} of the energy and ${delay} of the delay`;
  return [
    `Counted at the boundary ${main.boundary}, one switch saves ${figureText(main.saved)} transistors ` +
      `(${percent} % interval) in this function: ${size}.`,
    `The claim of ${comparison} ${number.value} ${told(main)}: it is true in ${drawsText(main.share)} of the draws.`,
    `As the function grows without limit the number tends to ${limitText(main)}.`,
    `The hybrid form then has ${near} of the all-CMOS one in one operation (${definition.operation}).`,
  ].join(" ");
}

function told(main: Verdict): string {
  return main.verdict === "fails" ? "fails" : verdictText(main);
}

function limitText({ limit }: Verdict): string {
  return `${figureText(limit)}, a numeric limit good to ${limit.tolerance.toExponential(0)}`;
}
