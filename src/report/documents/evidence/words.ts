import type { Compared } from "../../../studies/evidence/compare.ts";
import { COMPARED_QUANTITIES } from "../../../studies/evidence/plan.ts";
import type { Column } from "../../document/document.ts";

/** What a figure is, with the region that an area is of. */
export function figureLabel({ quantity, region }: Pick<Compared, "quantity" | "region">): string {
  const { label } = COMPARED_QUANTITIES[quantity];
  if (region === undefined) return label;
  return quantity === "macro_area" ? `${region} area` : `cells in the ${region}`;
}

export const right = (name: string, title: string): Column => ({ name, title, align: "right" });
export const left = (name: string, title: string): Column => ({ name, title });
