/** Reads the worked numbers of shared/checks for the periphery's tests. */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect } from "vitest";

export interface Check {
  readonly id: string;
  readonly words: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, { readonly value: number | readonly number[] }>>;
  readonly expected: readonly { readonly name: string; readonly value: number }[];
  readonly relative_tolerance: number;
}

function read(name: string): unknown {
  const url = new URL(`../../shared/checks/${name}.yaml`, import.meta.url);
  return load(readFileSync(url, "utf8"));
}

const checks = (read("delay-checks") as { checks: Check[] }).checks;

/** One worked check by its id. */
export function checkOf(id: string): Check {
  const found = checks.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no check ${id}`);
  return found;
}

/** An input of a check in SI. */
export function input(check: Check, name: string): number {
  const value = check.inputs[name]?.value;
  if (typeof value !== "number") throw new Error(`${check.id} has no input ${name}`);
  return value;
}

/** Asserts a value of a check within the tolerance that the check states. */
export function matches(check: Check, name: string, got: number | undefined): void {
  const wanted = check.expected.find((one) => one.name === name);
  if (wanted === undefined) throw new Error(`${check.id} has no value ${name}`);
  const error = Math.abs((got ?? Number.NaN) / wanted.value - 1);
  expect(error, `${check.id} ${name}: got ${got}, wanted ${wanted.value}`).toBeLessThanOrEqual(
    check.relative_tolerance,
  );
}

export interface DecoderRow {
  readonly address_bits: number;
  readonly outputs: number;
  readonly flat: number;
  readonly predecoded: readonly {
    readonly groups: readonly number[];
    readonly transistors: number;
  }[];
}

/** Counts of row decoders, and the published cases. */
export const decoders = read("row-decoders") as {
  rows: DecoderRow[];
  published_checks: { case: string; transistors?: number; formula?: string }[];
};
