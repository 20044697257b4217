// Prints 'N passed, N failed, N skipped' from vitest's JSON result and the number of failed steps; exits 1 on a failure.
import { existsSync, readFileSync } from "node:fs";

const [file, steps] = process.argv.slice(2);
const result = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : undefined;
// A file that fails to load has no failed test in it: count it, or it would pass unseen.
const brokenFiles = (result?.testResults ?? []).filter(
  (suite) => suite.status === "failed" && suite.assertionResults.every((t) => t.status !== "failed"),
).length;
const testsFailed = (result?.numFailedTests ?? 0) + brokenFiles;
const passed = result?.numPassedTests ?? 0;
const skipped = (result?.numPendingTests ?? 0) + (result?.numTodoTests ?? 0);
// The step "tests" fails whenever a test does: it is already counted by its tests.
const otherSteps = Math.max(0, Number(steps) - (testsFailed > 0 ? 1 : 0));
const failed = testsFailed + otherSteps;
console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
