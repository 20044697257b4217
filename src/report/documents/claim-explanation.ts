import { nearestWord } from "../../errors/nearest.ts";
import { refuse } from "../../errors/problem.ts";
import type { SideModel } from "../../estimate/functions/index.ts";
import { derive } from "../../formulas/derive.ts";
import type { TestedStudy } from "../../studies/claim/claims.ts";
import type { Block, Document } from "../document/document.ts";
import { heading } from "../document/make.ts";
import { explanationDocument } from "./explanation.ts";

/**
 * How a quantity of both sides of each claim comes about, down to its parameters: with a count such
 * as `function_boundary_transistors`, every transistor to the last inverter.
 *
 * @throws TenfoldError `unknown-word` where neither side of a claim has the quantity
 */
export function claimExplanation(
  { study, claims }: TestedStudy,
  quantity: string,
  depth: number,
): Document {
  return {
    title: study.title,
    subtitle: `How ${quantity} comes about`,
    blocks: claims.flatMap(({ name, sides }): Block[] => {
      requireQuantity([sides.hybrid, sides.baseline], quantity);
      return [
        ...sideBlocks(`${name}: hybrid`, sides.hybrid, quantity, depth),
        ...sideBlocks(`${name}: all-CMOS`, sides.baseline, quantity, depth),
      ];
    }),
  };
}

function sideBlocks(title: string, side: SideModel, quantity: string, depth: number): Block[] {
  if (!side.program.quantities.has(quantity)) return [];
  const derivation = derive(side.program, side.everything(), quantity, depth);
  const model = { parameters: side.design.parameters.all() };
  return [heading(title), ...explanationDocument({ design: title, derivation, model }).blocks];
}

function requireQuantity(sides: readonly SideModel[], quantity: string): void {
  const known = sides.flatMap(({ program }) => [...program.quantities.keys()]);
  if (known.includes(quantity)) return;
  const nearest = nearestWord(quantity, known);
  refuse({
    code: "unknown-word",
    what: `the function has no quantity \`${quantity}\``,
    got: quantity,
    expected: "one of its quantities, such as `function_boundary_transistors`",
    ...(nearest === undefined ? {} : { nearest }),
  });
}
