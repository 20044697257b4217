import { expect, test } from "vitest";
import { Arena } from "../../../src/numerics/crossbar/kernels/instance.ts";

const PAGE = 65536;

test("memory is kept for the next array while it is large enough, and holds as much as was asked for", () => {
  const { buffer } = new Arena(8).doubles(1).view;
  const size = buffer.byteLength;
  // The first 64 bytes are nobody's.
  expect(new Arena(size - 64).doubles((size - 64) / 8).view.buffer).toBe(buffer);
  const more = new Arena(size).doubles(size / 8).view;
  expect(more.buffer.byteLength).toBe(size + PAGE);
  expect(new Arena(8).doubles(1).view.buffer).toBe(more.buffer);
});
