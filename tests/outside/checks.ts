import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect } from "vitest";

interface Check {
  readonly id: string;
  readonly inputs: Readonly<Record<string, { readonly value: never }>>;
  readonly expected: readonly { readonly name: string; readonly value: number }[];
  readonly relative_tolerance: number;
}

const file = new URL("../../shared/checks/delay-checks.yaml", import.meta.url);
const { checks } = load(readFileSync(file, "utf8")) as { checks: Check[] };

/** The inputs of a worked example of `shared/checks/delay-checks.yaml`, where its source stands. */
export function inputsOf<T = number>(id: string): Record<string, T> {
  const { inputs } = find(id);
  return Object.fromEntries(Object.entries(inputs).map(([name, { value }]) => [name, value as T]));
}

/** Expects one number of a worked example, within the tolerance that the example states. */
export function expectWorked(id: string, name: string, got: number): void {
  const { expected, relative_tolerance } = find(id);
  const wanted = expected.find((one) => one.name === name);
  expect(wanted, `${id} has ${name}`).toBeDefined();
  const error = Math.abs(got / wanted!.value - 1);
  expect(error, `${id} ${name}: ${got} for ${wanted!.value}`).toBeLessThanOrEqual(
    relative_tolerance,
  );
}

function find(id: string): Check {
  const found = checks.find((check) => check.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found;
}
