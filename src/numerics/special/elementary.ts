/**
 * The elementary functions that engines are free to round differently: numeric code takes them from
 * here, never from `Math`, so that a study gives the same bytes on every engine.
 */

export * from "../elementary/index.ts";

/** Rounded correctly by every engine; here for symmetry. */
export const sqrt: (x: number) => number = Math.sqrt;
