import { widthOf } from "./svg.ts";

/** A text beside a mark. */
export interface Label {
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "end" | "middle";
  readonly text: string;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** The sides of a picture, `top` above `bottom`. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const BESIDE = 9;
const ROUND_MARK = 6;
/** Fonts differ: a text may be wider than is reckoned. */
const ROOMY = 1.1;

/**
 * Places each text beside its mark, where it hides neither a mark nor a text that stands already. A
 * text that finds no room is left out: who reads the picture finds it in the table.
 *
 * @param wanted marks with their texts, in the order of their weight
 * @param marks all marks of the picture
 * @param inside no text leaves it
 */
export function labelsFor(
  wanted: readonly (Spot & { readonly text: string })[],
  marks: readonly Spot[],
  inside: Box,
  size: number,
): Label[] {
  const taken: Box[] = marks.map(({ x, y }) => around(x, y));
  const placed: Label[] = [];
  for (const one of wanted) {
    const found = candidates(one, size).find(
      ({ box }) => fits(box, inside) && !taken.some((other) => meet(box, other)),
    );
    if (found === undefined) continue;
    taken.push(found.box);
    placed.push(found.label);
  }
  return placed;
}

const around = (x: number, y: number): Box => ({
  left: x - ROUND_MARK,
  right: x + ROUND_MARK,
  top: y - ROUND_MARK,
  bottom: y + ROUND_MARK,
});

/** Right, left, above, below, then the same further away. */
function candidates({ x, y, text }: Spot & { readonly text: string }, size: number) {
  const width = ROOMY * widthOf(text, size);
  const at = (anchor: Label["anchor"], dx: number, dy: number) => {
    const label: Label = { x: x + dx, y: y + dy, anchor, text };
    const left =
      anchor === "start" ? label.x : anchor === "end" ? label.x - width : label.x - width / 2;
    const box = {
      left,
      right: left + width,
      top: label.y - size * 0.8,
      bottom: label.y + size * 0.25,
    };
    return { label, box };
  };
  const middle = size * 0.35;
  const beside = (rows: readonly number[]) =>
    rows.flatMap((dy) => [at("start", BESIDE, middle + dy), at("end", -BESIDE, middle + dy)]);
  const over = (dy: number) => [
    at("middle", 0, -BESIDE - 2 - dy),
    at("middle", 0, BESIDE + size + dy),
  ];
  return [
    ...beside([0, -size, size]),
    ...over(0),
    ...beside([-2 * size, 2 * size]),
    ...over(size),
    ...over(2 * size),
  ];
}

const fits = (box: Box, { left, right, top, bottom }: Box): boolean =>
  box.left >= left + 2 && box.right <= right - 2 && box.top >= top + 2 && box.bottom <= bottom - 2;
const meet = (one: Box, other: Box): boolean =>
  one.left < other.right &&
  other.left < one.right &&
  one.top < other.bottom &&
  other.top < one.bottom;
