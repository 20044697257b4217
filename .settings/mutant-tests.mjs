// As much of the test runner as the tests of models use, with the runner's own `expect`.
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { root } from "./fingerprint.mjs";

const near = createRequire(createRequire(join(root, "package.json")).resolve("vitest/package.json"));
const chai = await import(pathToFileURL(near.resolve("chai")).href);
const matchers = await import(pathToFileURL(near.resolve("@vitest/expect")).href);
chai.use(matchers.JestExtend);
chai.use(matchers.JestChaiExpect);
chai.use(matchers.JestAsymmetricMatchers);

const { expect } = chai;
expect.unreachable = (message) => {
  throw new Error(`reached: ${message}`);
};

let tests = [];
let path = [];

function register(name, ...rest) {
  const run = rest.find((one) => typeof one === "function");
  tests.push({ kind: "test", name: [...path, name].join(" > "), run });
}

function group(name, ...rest) {
  path.push(name);
  rest.find((one) => typeof one === "function")();
  path.pop();
}

const each = (declare) => (rows) => (name, run) => {
  for (const row of rows) {
    const own = Array.isArray(row) ? row : [row];
    declare(String(own[0]).length < 80 ? `${name} [${own[0]}]` : name, () => run(...own));
  }
};

const test = Object.assign(register, { each: each(register) });
const describe = Object.assign(group, { each: each(group) });
const hook = (kind) => (run) => tests.push({ kind, name: [...path, kind].join(" > "), run });

/** What a test file imports from "vitest". */
export const shim = {
  test,
  it: test,
  describe,
  expect,
  beforeAll: hook("before"),
  afterAll: hook("after"),
  afterEach: () => undefined,
  onTestFinished: () => undefined,
};

/** Starts a file: what it declares goes into the list that this returns. */
export function beginFile() {
  tests = [];
  path = [];
  return tests;
}

/** Runs the tests of a file until one fails. @returns its name and what it said */
export async function runFile(list) {
  // What comes before a group's tests is declared before them.
  const late = ({ kind }) => (kind === "after" ? 1 : 0);
  for (const { name, run } of [...list].sort((a, b) => late(a) - late(b))) {
    try {
      await run?.();
    } catch (error) {
      return `${name}: ${String(error?.message).split("\n")[0]}`;
    }
  }
  return undefined;
}
