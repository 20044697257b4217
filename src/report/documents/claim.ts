import { BOUNDARY_MEANINGS } from "../../estimate/ledger.ts";
import { formatQuantity, formatRatio } from "../../quantities/format.ts";
import type { TestedClaim, TestedStudy } from "../../studies/claim/claims.ts";
import { countedWords } from "../../studies/claim/counted.ts";
import { isAsClaimed } from "../../studies/claim/holding.ts";
import type { Verdict } from "../../studies/claim/verdict.ts";
import type { Block, Document } from "../document/document.ts";
import { heading, note, paragraph, quantity, ratio, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";
import { ledgerBlocks } from "./claim-ledger.ts";
import { proposalText } from "./claim-proposal.ts";
import { surveyBlocks } from "./claim-survey.ts";
import {
  binary,
  crossingText,
  drawsText,
  sentenceOf,
  valueText,
  windowText,
} from "./claim-words.ts";
import { sourcesDocument } from "./sources.ts";

export interface ClaimOptions {
  /** Every transistor of both sides, by part. */
  readonly ledger: boolean;
}

/** What every claim leaves out, whatever the function. */
const LEFT_OUT = [
  "A count of transistors says nothing of write endurance, write energy or write time, which " +
    "transistors do not have to fear.",
  "The access transistor of a cell counts as one, although a write current may make it wider " +
    "than many others: see the boundary area.",
  "Converters, amplifiers, program-and-verify and raised voltages are counted where a function " +
    "needs them; what the system needs beyond is not.",
];

/** Claims with their verdicts, a table for a slide and a paragraph for a proposal each. */
export function claimDocument(tested: TestedStudy, options: ClaimOptions): Document {
  const percent = Math.round(100 * tested.study.coverage);
  return {
    title: tested.study.title,
    subtitle: `${percent} % intervals from parameters · both sides composed by the same rules`,
    blocks: [
      ...tested.surveys.flatMap(surveyBlocks),
      ...tested.claims.flatMap((claim) => claimBlocks(claim, options)),
      heading("What is counted"),
      {
        kind: "list",
        items: Object.entries(BOUNDARY_MEANINGS).map(([name, meaning]) => `${name}: ${meaning}`),
      },
      heading("What is left out"),
      { kind: "list", items: LEFT_OUT },
      ...(options.ledger ? sourcesDocument("the claims", tested.references).blocks : []),
      ...CAUTIONS,
    ],
  };
}

function claimBlocks(tested: TestedClaim, { ledger }: ClaimOptions): Block[] {
  const { definition, verdicts, broken, remedies, question } = tested;
  const { number } = question.wanted;
  const main = verdicts.find(({ boundary }) => boundary === "function") ?? verdicts[0]!;
  return [
    heading(sentenceOf(tested)),
    verdictTable(tested),
    ...broken.map((what) => note("warning", `does not work: ${what}`)),
    paragraph(proposalText(tested, main)),
    costsTable(tested),
    {
      kind: "list",
      items: [
        ...main.drivers.map((driver) => driverText(driver, main)),
        ...main.asked.map(crossingText),
        ...(main.capacityTurn === undefined
          ? []
          : [
              `The nominal number passes ${number} at ${binary(main.capacityTurn)} ${definition.element}.`,
            ]),
        ...remedies.map(({ crossing }) => `What would do it alone: ${crossingText(crossing)}`),
        ...(remedies.length === 0 && !isAsClaimed(main.saved.value, question.wanted)
          ? ["No single figure of the two sides would make the number true."]
          : []),
        `Counted ${countedWords(tested.sides.counting)}.`,
        ...definition.leavesOut.map((what) => `Left out: ${what}.`),
      ],
    },
    ...(ledger ? ledgerBlocks(tested) : []),
  ];
}

/** Fits 80 columns. */
function verdictTable({ name, verdicts, claim, definition }: TestedClaim): Block {
  const { comparison = "at least", number } = claim;
  return {
    kind: "table",
    name: `claim_${name.replaceAll("-", "_")}`,
    caption: `${definition.title}: ${comparison} ${number.value} transistors saved per switch`,
    columns: [
      { name: "boundary", title: "counted at" },
      { name: "verdict", title: "the claim" },
      { name: "saved_per_switch", title: "saved per switch", align: "left" },
      { name: "share_of_draws", title: "true in", align: "right" },
      { name: "capacities", title: "holds at" },
      { name: "limit", title: "limit", align: "right" },
    ],
    rows: verdicts.map((verdict) => [
      text(verdict.boundary),
      text(verdict.verdict),
      quantity("1", verdict.saved),
      text(drawsText(verdict.share)),
      text(windowText(verdict.capacities)),
      quantity("1", verdict.limit.value),
    ]),
  };
}

function costsTable({ name, costs }: TestedClaim): Block {
  return {
    kind: "table",
    name: `costs_${name.replaceAll("-", "_")}`,
    columns: [
      { name: "quantity", title: "hybrid over baseline" },
      { name: "ratio", title: "ratio", align: "left" },
      { name: "interval", title: "interval", align: "left" },
    ],
    rows: (["area", "energy", "delay"] as const).map((what) => {
      const figure = costs[what];
      const label = what === "area" ? "area" : `${what} per operation`;
      const [low, high] = [figure.low, figure.high].map((end) => formatRatio(end));
      return [text(label), ratio(figure.value), text(`${low} to ${high}`)];
    }),
  };
}

function driverText(
  { parameter, atLow, atHigh, crossing }: Verdict["drivers"][number],
  { boundary }: Verdict,
): string {
  const [low, high] = [parameter.low, parameter.high].map((end) => valueText(parameter, end));
  const turns =
    crossing.value === undefined
      ? "the claim does not turn with it"
      : `the claim turns at ${valueText(parameter, crossing.value)}`;
  return (
    `Matters most at the boundary ${boundary}: ${parameter.name}, ${low} to ${high}, moves the ` +
    `number from ${round(atLow)} to ${round(atHigh)}; ${turns}.`
  );
}

const round = (value: number) => formatQuantity({ value }, "1");
