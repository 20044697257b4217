/** The section `standby:` of a study: how a memory is used, for its mean power. */

import type { Parameter } from "../quantities/parameter.ts";
import { group, name, positive, quantity } from "./define.ts";
import type { Field } from "./field.ts";

export interface BatteryStatement {
  readonly charge: Parameter;
  readonly voltage: Parameter;
  readonly self_discharge?: Parameter;
  readonly other_power?: Parameter;
}

export interface StandbySection {
  readonly period: Parameter;
  readonly active_time: Parameter;
  readonly reads?: Parameter;
  readonly writes?: Parameter;
  readonly save_to?: string;
  readonly saved?: Parameter;
  readonly battery?: BatteryStatement;
}

export const standbyField: Field<StandbySection> = group<StandbySection>(
  "how the memory is used: bursts of activity, and rest between them",
  {
    period: positive("s", "time from burst to burst", { required: true, example: "10 min" }),
    active_time: positive("s", "length of a burst", { required: true, example: "2 s" }),
    reads: quantity("1", "words read in a burst", { minimum: 0, example: "100000" }),
    writes: quantity("1", "words written in a burst", { minimum: 0, example: "20000" }),
    save_to: name("the design that keeps the data of those that lose it without a supply", {
      example: "one-transistor",
    }),
    saved: positive("bit", "what is saved and restored; the whole capacity unless said", {
      example: "64 Kib",
    }),
    battery: group<BatteryStatement>("the battery that the memory draws from", {
      charge: positive("C", "charge of the battery", { required: true, example: "2.4 A h" }),
      voltage: positive("V", "voltage of the battery", { required: true, example: "3 V" }),
      self_discharge: quantity("1/s", "rate constant of its self-discharge", {
        minimum: 0,
        example: "1 %/year",
      }),
      other_power: quantity("W", "mean power of everything but the memory", {
        minimum: 0,
        example: "50 uW",
      }),
    }),
  },
);
