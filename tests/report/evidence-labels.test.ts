import fc from "fast-check";
import { expect, test } from "vitest";
import { type Label, labelsFor } from "../../src/report/charts/labels.ts";
import { widthOf } from "../../src/report/charts/svg.ts";

const BOX = { left: 0, right: 300, top: 0, bottom: 300 };
const SIZE = 11;

/** What a text covers at the least, whatever its font. */
function covered({ x, y, anchor, text }: Label) {
  const width = widthOf(text, SIZE);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - 0.7 * SIZE, bottom: y };
}

test("labels of a chart hide no mark and no other label, and stay in their panel", () => {
  const mark = fc.record({
    x: fc.integer({ min: 0, max: 300 }),
    y: fc.integer({ min: 0, max: 300 }),
  });
  fc.assert(
    fc.property(fc.array(mark, { maxLength: 25 }), (marks) => {
      const wanted = marks.slice(0, 12).map((one, i) => ({ ...one, text: `chip-${i} × 2.0` }));
      const boxes = labelsFor(wanted, marks, BOX, SIZE).map(covered);
      for (const [i, box] of boxes.entries()) {
        expect(box.left >= 0 && box.right <= 300 && box.top >= 0 && box.bottom <= 300).toBe(true);
        for (const { x, y } of marks) {
          expect(x > box.left && x < box.right && y > box.top && y < box.bottom).toBe(false);
        }
        for (const other of boxes.slice(i + 1)) {
          const apart =
            box.right <= other.left ||
            other.right <= box.left ||
            box.bottom <= other.top ||
            other.bottom <= box.top;
          expect(apart).toBe(true);
        }
      }
    }),
    { seed: 1, numRuns: 300 },
  );
});

test("a mark alone is named to its right, and to its left where the panel ends", () => {
  const of = (x: number) =>
    labelsFor([{ x, y: 150, text: "chip" }], [{ x, y: 150 }], BOX, SIZE)[0]!;
  expect(of(100).anchor).toBe("start");
  expect(of(290).anchor).toBe("end");
});
