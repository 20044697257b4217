/**
 * Share of the voltage that the lines may take for the closed forms to be used. Up to it they err
 * by no more than `CLOSED_ERRORS` over the published grid.
 */
export const CLOSED_UP_TO = 0.02;

/** Bounds on the relative error of the closed forms up to that share; tests hold them. */
export const CLOSED_ERRORS = {
  /** Currents and voltages of the far corner, disturb voltage. */
  far: 0.02,
  /** Currents and power of unselected cells, and what lines take. */
  leak: 0.15,
} as const;
