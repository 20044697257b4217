// A program of formulas as NumPy source: each formula once over whole columns.

const HEAD = `import json, time
import numpy as np
def whole(x, other):
    near = np.rint(x)
    return np.where(np.abs(x - near) <= 1e-12 * np.maximum(1, np.abs(x)), near, other(x))
def ceil(x): return whole(x, np.ceil)
def floor(x): return whole(x, np.floor)
def round_(x): return np.where(x < 0, -np.floor(-x + 0.5), np.floor(x + 0.5))
def minimum(*of):
    least = of[0]
    for x in of[1:]: least = np.minimum(least, x)
    return least
def maximum(*of):
    most = of[0]
    for x in of[1:]: most = np.maximum(most, x)
    return most
`;

const FUNCTIONS = { min: "minimum", max: "maximum", ceil: "ceil", floor: "floor", round: "round_" };

function text(tree) {
  switch (tree.kind) {
    case "number":
      return tree.value < 0 ? `(${tree.value})` : String(tree.value);
    case "symbol":
      return `v_${tree.name}`;
    case "negate":
      return `(-${text(tree.of)})`;
    case "binary":
      return `(${text(tree.left)}${tree.operator === "^" ? "**" : tree.operator}${text(tree.right)})`;
    case "call":
      return `${FUNCTIONS[tree.name] ?? `np.${tree.name}`}(${tree.of.map(text).join(",")})`;
    case "choose": {
      const { operator, left, right } = tree.when;
      return `np.where(${text(left)}${operator}${text(right)},${text(tree.chosen)},${text(tree.otherwise)})`;
    }
    default:
      throw new Error(`NumPy has no ${tree.kind}`);
  }
}

/** The steps that the outputs need. */
function needed(program, outputs) {
  const wanted = new Set(outputs);
  return [...program.steps]
    .reverse()
    .filter((step) => {
      if (step.kind !== "formula") {
        if (step.outputs.some((name) => wanted.has(name)))
          throw new Error("a procedure is no formula");
        return false;
      }
      if (!wanted.has(step.name)) return false;
      for (const name of step.reads) wanted.add(name);
      return true;
    })
    .reverse();
}

/**
 * Prints the seconds of the shortest of some runs and the sum of each output, as JSON. Formulas that
 * depend on no varied quantity are computed once, outside of the time, as the sweep does.
 */
export function numpyProgram(program, nominal, varied, outputs, points) {
  const steps = needed(program, outputs);
  const moving = new Set(varied);
  const inside = [];
  const outside = [];
  for (const step of steps) {
    const moves = step.reads.some((name) => moving.has(name));
    if (moves) moving.add(step.name);
    (moves ? inside : outside).push(`v_${step.name} = ${text(step.tree)}`);
  }
  const given = program.given
    .filter((name) => !varied.includes(name) && nominal.has(name))
    .map((name) => `v_${name} = ${nominal.get(name)}`);
  const columns = [
    `i = np.arange(${points})`,
    `v_temperature = 270 + (50.0 * i) / ${points}`,
    "v_on_resistance = 4000.0 + 3 * (i % 2000)",
    "v_drive_effort = 4 + (i % 9) / 2",
  ];
  return [
    HEAD,
    ...given,
    ...columns,
    ...outside,
    "def run():",
    ...[...moving].map((name) => `    global v_${name}`),
    ...inside.map((line) => `    ${line}`),
    "times = []",
    "for _ in range(60):",
    "    start = time.perf_counter()",
    "    run()",
    "    times.append(time.perf_counter() - start)",
    `sums = [float(np.sum(v)) for v in [${outputs.map((name) => `v_${name}`).join(", ")}]]`,
    'print(json.dumps({"seconds": min(times), "sums": sums}))',
  ].join("\n");
}
