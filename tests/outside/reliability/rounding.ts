import { roundWithUncertainty } from "../../../src/numerics/index.ts";
import type { Solver } from "./run.ts";

export const ROUNDING: Record<string, Solver> = {
  "unc-rounding": ({ at }) => {
    const given = at as unknown as { value: string; u: string };
    const { value, uncertainty } = roundWithUncertainty(given.value, given.u);
    return uncertainty === "" ? value : `${value} +- ${uncertainty}`;
  },
};
