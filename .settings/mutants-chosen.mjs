// For .settings/mutants.mjs: lets through only the mutants that were drawn, since ranges of text hold others as well, and
// tells of those that no test noticed as they come, since a run takes long.
import { readFileSync, writeFileSync } from "node:fs";
import { relative } from "node:path";
import { fileURLToPath } from "node:url";
import { declareClassPlugin, PluginKind } from "@stryker-mutator/api/plugin";

const root = fileURLToPath(new URL("..", import.meta.url));

class Chosen {
  async init() {
    this.keys = new Set(JSON.parse(readFileSync(`${root}.bench/chosen.json`, "utf8")));
  }

  /** Notes where each mutant is as well, for the order of the tests. */
  async check(mutants) {
    const places = mutants.map(({ id, fileName }) => [id, relative(root, fileName)]);
    writeFileSync(`${root}.bench/places.json`, JSON.stringify(Object.fromEntries(places)));
    const found = mutants.map((mutant) => [mutant.id, this.keys.has(keyOf(mutant))]);
    return Object.fromEntries(
      found.map(([id, chosen]) => [id, chosen ? { status: "passed" } : { status: "compileError", reason: "not drawn" }]),
    );
  }

  /** All at once. */
  async group(mutants) {
    return [mutants.map(({ id }) => id)];
  }
}

class Progress {
  done = 0;

  onMutantTested({ status, statusReason, fileName, location: { start }, mutatorName, replacement }) {
    if (statusReason === "not drawn") return;
    this.done++;
    if (status === "Killed") return;
    const place = `${relative(root, fileName)}:${start.line}:${start.column}`;
    const text = replacement.replace(/\s+/g, " ").slice(0, 60);
    console.log(`${this.done}: ${status}, ${place}, ${mutatorName} to ${text}`);
  }
}

function keyOf({ fileName, location: { start, end }, mutatorName, replacement }) {
  return [relative(root, fileName), start.line, start.column, end.line, end.column, mutatorName, replacement].join(" ");
}

export const strykerPlugins = [
  declareClassPlugin(PluginKind.Checker, "chosen", Chosen),
  declareClassPlugin(PluginKind.Reporter, "chosen", Progress),
];
