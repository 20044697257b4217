/** Reliability: from a switch's spread to error rates, yield, retention and life. */
export * from "./bit-errors.ts";
export * from "./codes.ts";
export * from "./compose.ts";
export * from "./defaults.ts";
export * from "./demonstration.ts";
export * from "./disturb.ts";
export * from "./levels.ts";
export * from "./life.ts";
export * from "./populations.ts";
export * from "./profile.ts";
export * from "./read-errors.ts";
export * from "./repair.ts";
export * from "./retention.ts";
export * from "./standby.ts";
export * from "./tile-repair.ts";
export * from "./yield.ts";
