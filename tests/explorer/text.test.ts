import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { History } from "../../src/explorer/text/history.ts";
import { sha256 } from "../../src/explorer/text/sha256.ts";
import { hashOf, holdsStudy, studyOf } from "../../src/explorer/text/share.ts";

const at = (text: string) => ({ text, start: 0, end: 0 });

describe("what was written", () => {
  test("comes back step by step, and forth again", () => {
    const history = new History(at("a"));
    history.change(at("b"), "typing", 0);
    history.change(at("c"), "typing", 5000);
    expect([history.undo()?.text, history.undo()?.text, history.undo()?.text]).toEqual([
      "b",
      "a",
      undefined,
    ]);
    expect([history.redo()?.text, history.redo()?.text, history.redo()?.text]).toEqual([
      "b",
      "c",
      undefined,
    ]);
  });

  test("in one go from one place is one step; from two places it is two", () => {
    const history = new History(at("a"));
    for (let i = 0; i < 9; i++) history.change(at(`one ${i}`), "slider 1", 100 * i);
    history.change(at("two"), "slider 2", 901);
    expect([history.undo()?.text, history.undo()?.text]).toEqual(["one 8", "a"]);
  });

  test("in one long drag is one step, and the next drag is another", () => {
    const history = new History(at("a"));
    for (let i = 0; i < 4; i++) history.change(at(`b${i}`), "slider", 5000 * i, 1);
    for (let i = 0; i < 4; i++) history.change(at(`c${i}`), "slider", 5000 * (4 + i), 2);
    expect([history.undo()?.text, history.undo()?.text]).toEqual(["b3", "a"]);
  });

  test("after a step back makes a new way forth, and does not join the step before", () => {
    const history = new History(at("a"));
    history.change(at("b"), "typing", 0);
    history.undo();
    history.change(at("c"), "typing", 1);
    expect(history.canRedo).toBe(false);
    expect([history.undo()?.text, history.canUndo]).toEqual(["a", false]);
  });

  test("and is the same as before is no step", () => {
    const history = new History(at("a"));
    history.change({ text: "a", start: 1, end: 1 }, "typing", 0);
    expect(history.canUndo).toBe(false);
  });
});

describe("SHA-256", () => {
  // FIPS 180-4, examples of the secure hash standard: one block, two blocks.
  test.each([
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    [
      "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ],
  ])("of %s is that of the standard", (text, hash) => {
    expect(sha256(text)).toBe(hash);
  });

  test("of any length and of any letters is that of the system", () => {
    for (const text of [
      "",
      "é中👩‍🔬",
      ..."x"
        .repeat(130)
        .split("")
        .map((_, i) => "y".repeat(i)),
    ]) {
      expect(sha256(text), text).toBe(createHash("sha256").update(text).digest("hex"));
    }
    const long = "0123456789abcdef".repeat(70_000);
    expect(sha256(long)).toBe(createHash("sha256").update(long).digest("hex"));
  });
});

describe("a study in an address", () => {
  test.each([
    ["a short one", "title: x\n"],
    ["an empty one", ""],
    ["one of many letters", "über · 中文 👩‍🔬 \u202e \u0000 'quote' <script>\r\n"],
    ["a byte-order mark", "\ufefftitle: x"],
    ["a long one", "capacity: 1 Mib # again\n".repeat(20_000)],
  ])("comes back as it was: %s", async (_, text) => {
    const hash = await hashOf(text);
    expect(hash).toMatch(/^#study=[\w-]*$/);
    expect(await studyOf(hash)).toBe(text);
  });

  test("is a third of its text or less", async () => {
    const text = "    set_voltage: {value: 1 V, low: 0.95 V, high: 1.05 V, source: here}\n".repeat(
      40,
    );
    expect((await hashOf(text)).length).toBeLessThan(text.length / 3);
  });

  test("that was cut, changed or made up is none", async () => {
    const hash = await hashOf("title: a study of some length, so that a cut is felt\n");
    for (const bad of [
      hash.slice(0, -4),
      hash.slice(0, 20),
      `${hash}!`,
      "#study=",
      "#study=%3Cscript%3E",
      "#study=AAAA",
      "#study=////",
      `#study=${"A".repeat(100_000)}`,
    ]) {
      expect(await studyOf(bad), bad.slice(0, 40)).toBeUndefined();
    }
    expect(holdsStudy("#the-answer")).toBe(false);
    expect(await studyOf("#the-answer")).toBeUndefined();
  });

  test("that would fill the memory is none", async () => {
    const bomb = await hashOf("a".repeat(20 * 2 ** 20));
    expect(bomb.length).toBeLessThan(40_000);
    expect(await studyOf(bomb)).toBeUndefined();
  });

  test("that is no text is none", async () => {
    const stream = new Blob([Uint8Array.of(0xff, 0xfe, 0x80)]).stream();
    const packed = await new Response(
      stream.pipeThrough(new CompressionStream("deflate-raw")),
    ).arrayBuffer();
    const letters = Buffer.from(packed).toString("base64url");
    expect(await studyOf(`#study=${letters}`)).toBeUndefined();
  });
});
