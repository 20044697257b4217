import fc from "fast-check";
import { dump, load } from "js-yaml";
import { describe, expect, it } from "vitest";
import { type Problem, TenfoldError } from "../../src/errors/problem.ts";
import { checkSize, decodeText, LARGEST_FILE } from "../../src/schema/yaml/decode.ts";
import { resolvePlain } from "../../src/schema/yaml/scalar.ts";
import { child, locatedTree, plainValue } from "../../src/schema/yaml/tree.ts";

function problemsOf(run: () => unknown): readonly Problem[] {
  try {
    run();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  return [];
}

/** Code, line and column of each problem, whether thrown or collected. */
function codesOf(text: string): string[] {
  let collected: readonly Problem[] = [];
  const thrown = problemsOf(() => {
    collected = locatedTree(text, "f").problems;
  });
  return [...collected, ...thrown].map((p) => `${p.code}@${p.place?.line}:${p.place?.column}`);
}

describe("the tree", () => {
  it("has the values that js-yaml loads, for random mappings", () => {
    const word = fc.string({ maxLength: 12 }).filter((s) => s !== "<<" && s !== "__proto__");
    const safe = fc.double({ noNaN: true, noDefaultInfinity: true });
    const scalar = fc.oneof(word, safe, fc.maxSafeInteger(), fc.boolean(), fc.constant(null));
    const { tree } = fc.letrec((tie) => ({
      tree: fc.oneof({ maxDepth: 4 }, scalar, fc.array(tie("tree"), { maxLength: 4 }), tie("map")),
      map: fc.dictionary(word, tie("tree"), { maxKeys: 4 }),
    }));
    fc.assert(
      fc.property(fc.dictionary(word, tree, { minKeys: 1, maxKeys: 5 }), (value) => {
        const text = dump(value);
        expect(plainValue(locatedTree(text, "f").root)).toEqual(load(text));
      }),
      { seed: 20261125, numRuns: 400 },
    );
  });

  it.each([
    "",
    "~",
    "null",
    "true",
    "False",
    "on",
    "yes",
    "0x1F",
    "0o17",
    "017",
    "1e3",
    ".5",
    "1.",
    "+1e-15",
    "1_000",
    "1:30",
    "2026-11-25",
    "5%",
    "1 fF",
    ".",
    "-",
    "+",
    "e5",
    ".inf",
    "-.INF",
    ".NaN",
  ])("the word `%s` means what js-yaml says that it means", (word) => {
    expect(resolvePlain(word)).toEqual(
      (load(`a: ${word === "-" ? '"-"' : word}`) as { a: unknown }).a,
    );
  });

  it("knows the place of keys and values, also after text that isn't ASCII and after CR LF", () => {
    const text = "# Ω\r\nä: 1\r\nb: {c: 'ξ', d: \"x y\"}\r\n";
    const { root, source } = locatedTree(text, "f");
    const b = child(root, "b")!;
    expect(source.place(b.keySpan.start)).toMatchObject({ line: 3, column: 1 });
    const d = child(b.value, "d")!.value;
    expect(source.place(d.start, d.end)).toEqual({
      file: "f",
      line: 3,
      column: 16,
      length: 5,
      text: "b: {c: 'ξ', d: \"x y\"}",
    });
  });

  it("keeps a key `__proto__` as a plain key", () => {
    const value = plainValue(
      locatedTree("__proto__: {polluted: 1}\nconstructor: 2", "f").root,
    ) as object;
    expect(Object.hasOwn(value, "__proto__")).toBe(true);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });
});

describe("hostile and broken YAML", () => {
  const deep = (n: number) => `a: ${"[".repeat(n)}${"]".repeat(n)}`;
  it.each([
    ["an anchor and its alias", "a: &x 1\nb: *x", ["yaml-alias@1:4", "yaml-alias@2:4"]],
    ["an alias to nothing", "a: *x", ["yaml-alias@1:4"]],
    ["a merge key", "a: {<<: {b: 1}}", ["yaml-alias@1:5"]],
    ["a tag", "a: !!js/function 'x'\nb: !foo 1", ["yaml-tag@1:4", "yaml-tag@2:4"]],
    ["a key that stands twice", "a: 1\nb: 2\na: 3", ["duplicate-key@3:1"]],
    ["a key that is a list", "? [1, 2]\n: 3", ["yaml-key@1:3"]],
    ["a tab before a key", "a:\n\tb: 1", ["yaml-tab@2:1"]],
    ["a tab in the first line", "\ta: 1", ["yaml-tab@1:1"]],
    ["an unclosed bracket", "a: [1, 2\nb: 3", ["yaml-syntax@2:1"]],
    ["an unclosed quote", "a: 'x", ["yaml-syntax@1:6"]],
    ["a colon in a text", "a: b: c", ["yaml-syntax@1:5"]],
    ["a word alone", "a: 1\nb", ["yaml-syntax@2:2"]],
    ["an empty text", "", ["file-empty@1:1"]],
    ["comments alone", "# nothing\n\n", ["file-empty@1:1"]],
    ["a second document", "a: 1\n---\nb: 2", ["yaml-documents@3:1"]],
    ["a list at the top", "- 1\n- 2", ["wrong-kind@1:1"]],
    ["a text at the top", "hello", ["wrong-kind@1:1"]],
    [
      "infinity",
      "a: .inf\nb: -.inf\nc: .nan",
      ["number-out-of-range@1:4", "number-out-of-range@2:4", "number-out-of-range@3:4"],
    ],
    ["an integer that would lose digits", "a: 9007199254740993", ["number-out-of-range@1:4"]],
    ["an overflow", "a: 1e999", ["number-out-of-range@1:4"]],
    ["a zero byte", "a: 1\nb: \0", ["file-encoding@2:1"]],
    ["101 levels", deep(101), ["yaml-depth@1:103"]],
  ])("%s is refused at its place", (_, text, codes) => {
    expect(codesOf(text)).toEqual(codes);
  });

  it("95 levels are read", () => {
    expect(codesOf(deep(95))).toEqual([]);
  });

  it("an alias bomb of 10^10 nodes is refused without being built", () => {
    const levels = Array.from(
      { length: 10 },
      (_, i) => `l${i + 1}: &l${i + 1} [${`*l${i}, `.repeat(10)}]`,
    );
    const text = `l0: &l0 x\n${levels.join("\n")}`;
    // Each anchor and each alias is one problem: nothing was expanded.
    expect(codesOf(text)).toHaveLength(11 + 100);
  });

  it("UTF-16, bytes that are no UTF-8 and, by its size alone, 100 MB are refused", () => {
    const codes = (bytes: Uint8Array) =>
      problemsOf(() => decodeText(bytes, "f")).map((p) => `${p.code}@${p.place?.line}`);
    expect(codes(new Uint8Array([0xff, 0xfe, 0x61, 0]))).toEqual(["file-encoding@1"]);
    expect(codes(new Uint8Array([0x61, 0x3a, 0x0a, 0xc3, 0x28]))).toEqual(["file-encoding@2"]);
    expect(problemsOf(() => checkSize(100e6, "f"))[0]?.code).toBe("file-too-large");
    expect(problemsOf(() => locatedTree("x".repeat(LARGEST_FILE + 1), "f"))[0]?.code).toBe(
      "file-too-large",
    );
  });

  it("four megabytes of mistakes end after 200 of them", () => {
    const text = `a: [${"{x: 1, x: 2}, ".repeat(250_000)}]`;
    expect(codesOf(text)).toHaveLength(200);
  });

  it("a byte-order mark of UTF-8 doesn't shift columns", () => {
    const text = decodeText(new TextEncoder().encode("\ufeffa: .inf"), "f");
    expect(codesOf(text)).toEqual(["number-out-of-range@1:4"]);
    expect(codesOf("\ufeffa: .inf")).toEqual(["number-out-of-range@1:4"]);
  });
});
