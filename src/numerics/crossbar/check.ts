/** What a crossbar problem must be before it is solved. */
import { refuse } from "../../errors/problem.ts";
import type { CrossbarProblem, Law, TerminalSide } from "./problem.ts";

const positive = (x: number) => x > 0 && x < Infinity;

function notPositive(what: string, got: number): never {
  refuse({ code: "not-positive", what: `${what} must be above zero`, got: String(got) });
}

function checkLaw(law: Law, name: string): void {
  for (const [key, value] of Object.entries(law)) {
    if (typeof value === "number" && !positive(value)) notPositive(`${name} ${key}`, value);
  }
  if (law.law === "threshold" && law.onResistance > law.offResistance) {
    refuse({
      code: "out-of-range",
      what: `${name} the on resistance of a threshold law is above its off resistance`,
      got: `${law.onResistance} ohm above ${law.offResistance} ohm`,
      fix: "give the on state the smaller resistance: a current must not fall with the voltage",
    });
  }
}

function checkSide(side: TerminalSide | undefined, name: string, count: number): boolean {
  if (side === undefined) return false;
  if (side.voltage.length !== count || side.resistance.length !== count) {
    refuse({
      code: "shape",
      what: `the ${name} terminals must be one per line`,
      got: String(side.voltage.length),
      expected: String(count),
    });
  }
  let present = false;
  for (let k = 0; k < count; k++) {
    const r = side.resistance[k]!;
    if (Number.isNaN(r)) continue;
    present = true;
    if (r < 0) notPositive(`${name} terminal ${k}: resistance, if not zero,`, r);
    if (r === Infinity || !Number.isFinite(side.voltage[k]!)) {
      refuse({ code: "not-a-number", what: `${name} terminal ${k}: not a finite number` });
    }
  }
  return present;
}

/** An ideal wire, or a wire of one junction, must not join two ideal sources. */
function checkConflict(a: TerminalSide | undefined, b: TerminalSide | undefined, line: string) {
  if (a === undefined || b === undefined) return;
  const k = a.resistance.findIndex((r, i) => r === 0 && b.resistance[i] === 0);
  if (k < 0) return;
  refuse({
    code: "conflict",
    what: `${line} ${k} joins two sources by zero resistance`,
    got: `${a.voltage[k]} V and ${b.voltage[k]} V`,
    fix: "give the wire or one terminal a resistance above zero, or leave one terminal out",
  });
}

/** Refuses, with a reason, what has no solution or no meaning. */
export function checkProblem(problem: CrossbarProblem): void {
  const { rows, columns, rowResistance, columnResistance, junctions, terminals } = problem;
  for (const [name, count] of [
    ["rows", rows],
    ["columns", columns],
  ] as const) {
    if (!Number.isInteger(count) || count < 1) {
      refuse({ code: "shape", what: `${name} must be a whole number above zero`, got: `${count}` });
    }
  }
  for (const [name, r] of [
    ["row", rowResistance],
    ["column", columnResistance],
  ] as const) {
    if (!(r >= 0)) notPositive(`the ${name} wire's resistance, if not zero,`, r);
    if (r === Infinity) refuse({ code: "not-a-number", what: `${name} wire: not a finite number` });
  }
  const values = "conductance" in junctions ? junctions.conductance : junctions.kindOf;
  if (values.length !== rows * columns) {
    refuse({
      code: "shape",
      what: "the junctions must be one per crossing",
      got: String(values.length),
      expected: String(rows * columns),
    });
  }
  if ("conductance" in junctions) {
    const g = junctions.conductance;
    for (let k = 0; k < g.length; k++) {
      if (!(g[k]! > 0 && g[k]! < Infinity)) notPositive(`the conductance of junction ${k}`, g[k]!);
    }
  } else {
    for (const [k, kind] of junctions.kinds.entries()) {
      checkLaw(kind.element, `kind ${k}:`);
      if (kind.selector !== undefined) checkLaw(kind.selector, `kind ${k}, selector:`);
    }
    const bad = junctions.kindOf.findIndex((k) => k >= junctions.kinds.length);
    if (bad >= 0) refuse({ code: "unknown-name", what: `junction ${bad} has no kind` });
  }
  const present = [
    checkSide(terminals.left, "left", rows),
    checkSide(terminals.right, "right", rows),
    checkSide(terminals.top, "top", columns),
    checkSide(terminals.bottom, "bottom", columns),
  ];
  if (!present.includes(true)) {
    refuse({ code: "no-reference", what: "no line has a terminal: nothing fixes the voltages" });
  }
  if (rowResistance === 0 || columns === 1) checkConflict(terminals.left, terminals.right, "row");
  if (columnResistance === 0 || rows === 1) {
    checkConflict(terminals.top, terminals.bottom, "column");
  }
}
