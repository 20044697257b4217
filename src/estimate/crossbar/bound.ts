import type { Scheme, SchemePair } from "../../models/crossbar/contract.ts";

/**
 * Share of the voltage that the lines may take for the closed forms to be used. Up to it they err
 * by no more than `CLOSED_ERRORS` over the published grid.
 */
export const CLOSED_UP_TO = 0.02;

/** How much closed forms err. */
export interface ClosedErrors {
  /** Currents and voltages of the far corner, disturb voltage. */
  readonly far: number;
  /** Currents and power of unselected cells, and what lines take. */
  readonly leak: number;
}

/** Bounds on the relative errors up to that share; tests hold them. Floating lines are solved. */
export const CLOSED_ERRORS: Readonly<Record<Exclude<Scheme, "floating">, ClosedErrors>> = {
  grounded: { far: 0.01, leak: 0.06 },
  "one-half": { far: 0.015, leak: 0.06 },
  "one-third": { far: 0.03, leak: 0.15 },
};

/** The bounds for a pair of schemes, neither of them floating. */
export function closedErrors({ read, write }: SchemePair): ClosedErrors {
  const bounds = [read, write].map((scheme) => CLOSED_ERRORS[scheme as keyof typeof CLOSED_ERRORS]);
  return {
    far: Math.max(...bounds.map(({ far }) => far)),
    leak: Math.max(...bounds.map(({ leak }) => leak)),
  };
}
