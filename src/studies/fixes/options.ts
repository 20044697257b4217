/** What can be done for the reliability of a design, each as a change of it. */
import type { Parameter } from "../../quantities/parameter.ts";
import type { Design, ErrorCorrection } from "../../schema/study.ts";

/** What is changed; one of each group at a time. */
export type FixGroup = "code" | "verify" | "scrub" | "spares" | "spreading";

export interface Fix {
  readonly group: FixGroup;
  readonly label: string;
  change(design: Design): Design;
}

const CODES: readonly (readonly [label: string, code: ErrorCorrection])[] = [
  ["no code", "none"],
  ["code, 1 error", "single"],
  ["code, 1 (2)", "single-double"],
  ["code, 2 errors", { corrects: 2 }],
  ["code, 3 errors", { corrects: 3 }],
  ["code, 4 errors", { corrects: 4 }],
];
/** Spare rows and columns of a tile. */
const SPARES: readonly (readonly [rows: number, columns: number])[] = [
  [0, 0],
  [1, 0],
  [2, 0],
  [2, 2],
  [4, 4],
  [8, 8],
];
/** Tolerances in standard deviations from cycle to cycle. */
const TOLERANCES = [2, 1.5, 1];
const DAY = 86_400;
const INTERVALS: readonly (readonly [label: string, seconds: number])[] = [
  ["scrub, 1 year", 365.25 * DAY],
  ["scrub, 30 day", 30 * DAY],
  ["scrub, 1 day", DAY],
];

function fixed(name: string, unit: string, value: number): Parameter {
  return {
    name,
    unit,
    value,
    low: value,
    high: value,
    distribution: "exact",
    source: "this project",
    basis: "default",
    note: "one of the fixes that are compared",
    key: `fix/${name}/${value}`,
  };
}

const sameCode = (a: ErrorCorrection | undefined, b: ErrorCorrection): boolean =>
  JSON.stringify(a ?? "none") === JSON.stringify(b);

/** Every fix but the design as it stands. @param cycleSpread of its switch, where it has one */
export function fixesFor(design: Design, cycleSpread: number | undefined): readonly Fix[] {
  const { reliability = {} } = design;
  const wanted = reliability.goal ?? {};
  const failures = wanted.word_failure !== undefined || wanted.macro_failure !== undefined;
  const errors = failures || wanted.bit_errors !== undefined;
  return [
    ...(failures ? codes(design) : []),
    ...(errors && cycleSpread !== undefined ? tolerances(cycleSpread) : []),
    ...(errors ? intervals(design) : []),
    ...(wanted.yield === undefined ? [] : spares(design)),
    ...(wanted.life === undefined ? [] : [SPREADING]),
  ];
}

/** Who has a code that sees one error more than it corrects is not offered one that does not. */
function codes({ error_correction: own }: Design): Fix[] {
  const blind = (code: ErrorCorrection): boolean => own === "single-double" && code === "single";
  const others = CODES.filter(([, code]) => !sameCode(own, code) && !blind(code));
  return others.map(([label, code]) => ({
    group: "code",
    label,
    change: (design) => ({ ...design, error_correction: code }),
  }));
}

function tolerances(cycleSpread: number): Fix[] {
  return TOLERANCES.map((sigmas) => ({
    group: "verify",
    label: `verify, ${sigmas} σ`,
    change: (design) => ({
      ...design,
      reliability: {
        ...design.reliability,
        level_tolerance: fixed("level_tolerance", "1", sigmas * cycleSpread),
      },
    }),
  }));
}

/** Intervals shorter than what the design has now. */
function intervals({ reliability = {} }: Design): Fix[] {
  const { mission_time: mission, scrub_interval: scrub } = reliability;
  const now = Math.min(scrub?.value ?? Number.POSITIVE_INFINITY, mission?.value ?? 0);
  return INTERVALS.filter(([, seconds]) => seconds < now).map(([label, seconds]) => ({
    group: "scrub",
    label,
    change: (design) => ({
      ...design,
      reliability: {
        ...design.reliability,
        scrub_interval: fixed("scrub_interval", "s", seconds),
      },
    }),
  }));
}

function spares({ spare_rows = 0, spare_columns = 0 }: Design): Fix[] {
  const others = SPARES.filter(([r, c]) => r !== spare_rows || c !== spare_columns);
  return others.map(([r, c]) => ({
    group: "spares",
    label: r + c === 0 ? "no spare lines" : `spares, ${r}+${c}`,
    change: (design) => ({ ...design, spare_rows: r, spare_columns: c }),
  }));
}

/** The costs come on top of the macro: see `wearSpreading`. */
const SPREADING: Fix = {
  group: "spreading",
  label: "spread",
  change: (design) => design,
};
