import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CODES } from "../../src/errors/codes.ts";

const root = new URL("../../src/", import.meta.url);
const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((f) =>
  f.endsWith(".ts"),
);
/** A code where a problem is made: after `code:`, or first in a call that reports one. */
const USE =
  /(?:\bcode: |\b(?:this\.)?(?:refuse|fail|report|add|wrong)\w*\(\s*)"([a-z]+(?:-[a-z0-9]+)+)"/g;

function usedCodes(): Map<string, string> {
  const used = new Map<string, string>();
  for (const file of files) {
    const text = readFileSync(new URL(file, root), "utf8");
    for (const match of text.matchAll(USE)) used.set(match[1]!, file);
  }
  return used;
}

describe("the codes of problems", () => {
  const used = usedCodes();

  it("are found in the sources", () => {
    expect(used.size).toBeGreaterThan(30);
    expect(used.get("duplicate-key")).toBe("schema/yaml/tree.ts");
  });

  it("that the sources use stand in the list", () => {
    const missing = [...used].filter(([code]) => !Object.hasOwn(CODES, code));
    expect(missing).toEqual([]);
  });

  it("are kebab-case and explained by a sentence without a full stop", () => {
    for (const [code, meaning] of Object.entries(CODES)) {
      expect(code).toMatch(/^[a-z]+(-[a-z0-9]+)+$/);
      expect(meaning).toMatch(/^[a-z].*[^.]$/);
    }
  });
});
