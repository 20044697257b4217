import type { Scheme, SchemePair } from "../../models/crossbar/contract.ts";

/** Where the closed forms of a scheme are used, and how much they err there. */
export interface ClosedBound {
  /** Share of the voltage that the lines may take on the way to the far corner. */
  readonly upTo: number;
  /** Bound on the relative error of the far corner's currents and voltages, and of the disturbance. */
  readonly far: number;
  /** The same for currents and power of unselected cells, and for what lines take. */
  readonly leak: number;
}

/** Bounds that tests hold over the published grid. Floating lines are always solved. */
export const CLOSED_BOUNDS: Readonly<Record<Exclude<Scheme, "floating">, ClosedBound>> = {
  grounded: { upTo: 0.05, far: 0.01, leak: 0.1 },
  "one-half": { upTo: 0.05, far: 0.015, leak: 0.13 },
  "one-third": { upTo: 0.02, far: 0.03, leak: 0.13 },
};

/** The bounds of a pair of schemes, neither of them floating. */
export function closedBound({ read, write }: SchemePair): ClosedBound {
  const bounds = [read, write].map((scheme) => CLOSED_BOUNDS[scheme as keyof typeof CLOSED_BOUNDS]);
  return {
    upTo: Math.min(...bounds.map(({ upTo }) => upTo)),
    far: Math.max(...bounds.map(({ far }) => far)),
    leak: Math.max(...bounds.map(({ leak }) => leak)),
  };
}
