import { type Drawn, element, type Page } from "./svg.ts";

/** Kinds are told apart by shape first and by colour besides. */
export interface MarkerLook {
  /** Which of the shapes; beyond their number they begin anew. */
  readonly shape: number;
  readonly fill: string;
  readonly open: boolean;
}

const SIZE = 5;
const polygon =
  (...corners: readonly (readonly [x: number, y: number])[]) =>
  (x: number, y: number): string =>
    `M${corners.map(([dx, dy]) => `${(x + SIZE * dx).toFixed(1)} ${(y + SIZE * dy).toFixed(1)}`).join("L")}Z`;
const circle = (x: number, y: number): string =>
  `M${(x - SIZE).toFixed(1)} ${y.toFixed(1)}a${SIZE} ${SIZE} 0 1 0 ${2 * SIZE} 0a${SIZE} ${SIZE} 0 1 0 ${-2 * SIZE} 0Z`;

const SHAPES: readonly ((x: number, y: number) => string)[] = [
  circle,
  polygon([-0.9, -0.9], [0.9, -0.9], [0.9, 0.9], [-0.9, 0.9]),
  polygon([0, -1.2], [1.1, 0.8], [-1.1, 0.8]),
  polygon([0, -1.3], [1.3, 0], [0, 1.3], [-1.3, 0]),
  polygon([0, 1.2], [1.1, -0.8], [-1.1, -0.8]),
  polygon(
    [-0.4, -1.2],
    [0.4, -1.2],
    [0.4, -0.4],
    [1.2, -0.4],
    [1.2, 0.4],
    [0.4, 0.4],
    [0.4, 1.2],
    [-0.4, 1.2],
    [-0.4, 0.4],
    [-1.2, 0.4],
    [-1.2, -0.4],
    [-0.4, -0.4],
  ),
  polygon([-1.2, 0], [-0.6, -1.1], [0.6, -1.1], [1.2, 0], [0.6, 1.1], [-0.6, 1.1]),
  polygon([0.8, 0], [-1, -1.1], [-0.4, 0], [-1, 1.1]),
];

/** One mark; an open one keeps its colour as a thick outline within a thin one. */
export function drawMarker(page: Page, x: number, y: number, look: MarkerLook): Drawn {
  const d = SHAPES[look.shape % SHAPES.length]!(x, y);
  const group = element(page, "g", {});
  if (look.open) {
    const outline = { d, fill: "none", stroke: "currentColor" };
    group.appendChild(element(page, "path", { ...outline, "stroke-width": 3.4 }));
    group.appendChild(
      element(page, "path", { ...outline, stroke: look.fill, "stroke-width": 1.8 }),
    );
  } else {
    group.appendChild(element(page, "path", { d, fill: look.fill, stroke: "currentColor" }));
  }
  return group;
}
