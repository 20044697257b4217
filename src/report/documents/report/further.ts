import type { TestedStudy } from "../../../studies/claim/claims.ts";
import type { StudyEstimate } from "../../../studies/estimate.ts";
import type { Organised } from "../../../studies/organise/study.ts";
import { frontChart, titleOf } from "../../charts/front.ts";
import type { Block } from "../../document/document.ts";
import { heading } from "../../document/make.ts";
import { CAUTIONS } from "../cautions.ts";
import { claimDocument } from "../claim.ts";
import { organiseDocument } from "../organise.ts";
import { carriesBlocks } from "./carries.ts";
import { marginBlocks } from "./margin.ts";

/** What a study asks for beside its estimate. */
export interface FurtherResults {
  readonly organised?: Organised;
  readonly claims?: TestedStudy;
}

/** The trade-off front, what carries the uncertainty, the solved arrays and the claims, where a study has them. */
export function furtherBlocks(estimate: StudyEstimate, results: FurtherResults): Block[] {
  const { organised, claims } = results;
  return [
    ...(organised === undefined ? [] : organisedBlocks(organised)),
    ...carriesBlocks(estimate),
    ...marginBlocks(estimate.designs),
    ...(claims === undefined ? [] : claimBlocks(claims)),
  ];
}

function organisedBlocks(organised: Organised): Block[] {
  const { blocks, subtitle } = organiseDocument(organised);
  const [, ...rest] = withoutCautions(blocks);
  const title = titleOf(organised);
  const picture: Block[] =
    organised.plan.aims.length < 2 || organised.found.length === 0
      ? []
      : [
          {
            kind: "picture",
            name: "front",
            caption: `${title}: ${subtitle}.`,
            alternative: `${title}. The table of the best organisations says the same.`,
            svg: frontChart(organised),
          },
        ];
  return [heading(title), ...picture, ...rest.map(deeper)];
}

function claimBlocks(claims: TestedStudy): Block[] {
  const { blocks } = claimDocument(claims, { ledger: false });
  return [heading("The claims"), ...withoutCautions(blocks).map(deeper)];
}

/** The report has them once. */
function withoutCautions(blocks: readonly Block[]): readonly Block[] {
  return blocks.filter((block) => !(CAUTIONS as readonly Block[]).includes(block));
}

/** A heading of another document, as one within a chapter of the report. */
function deeper(block: Block): Block {
  return block.kind === "heading" ? { ...block, level: 2 } : block;
}
