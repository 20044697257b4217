// One-step changes of a formula's tree, without those that leave its value as it was.
const COMPARISONS = { "<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "!=", "!=": "==" };
const OPPOSITE = { "+": "-", "-": "+", "*": "/", "/": "*" };

/** Changed texts of a formula: {to, kind, dimension: whether its dimension is still right}. */
export function mutationsOf(
  { from, name, units },
  { parseFormula, formulaText, dimensionOfTree, interpret, constantOf },
) {
  const tree = parseFormula(from);
  const unitOf = (symbol) => units[symbol] ?? constantOf(symbol)?.unit;
  const own = dimensionText(tree);
  const found = new Map();
  for (const { tree: changed, kind } of changesOf(tree, (symbol) => unitOf(symbol))) {
    const to = formulaText(changed);
    if (found.has(to) || same(tree, changed)) continue;
    found.set(to, { to, kind, dimension: dimensionText(changed) === own });
  }
  return [...found.values()];

  function dimensionText(one) {
    try {
      return JSON.stringify(dimensionOfTree(one, unitOf));
    } catch {
      return `${name}: none`;
    }
  }

  /** Alike at forty points of many sizes, where it is a number that says something at five of them. */
  function same(a, b) {
    let telling = 0;
    for (let i = 0; i < 40; i++) {
      const value = (symbol) => constantOf(symbol)?.value ?? 10 ** ((i < 20 ? 1 : 4) * (hash(`${symbol} ${i}`) - 0.5));
      const [x, y] = [a, b].map((one) => interpret(one, value));
      const alike = x === y || Math.abs(x - y) <= 1e-12 * Math.abs(x) || (Number.isNaN(x) && Number.isNaN(y));
      if (!alike) return false;
      if (Number.isFinite(x) && x !== 0) telling++;
    }
    return telling >= 5;
  }
}

/** A number in [0, 1) of a text. */
function hash(text) {
  let h = 2166136261;
  for (const letter of text) h = Math.imul(h ^ letter.charCodeAt(0), 16777619);
  h = Math.imul(h ^ (h >>> 16), 0x21f0aaad);
  h = Math.imul(h ^ (h >>> 15), 0x735a2d97);
  return ((h ^ (h >>> 15)) >>> 0) / 2 ** 32;
}

/** All changes of a tree: at its top, and in each of its parts. */
function* changesOf(tree, unitOf) {
  yield* swapsOf(tree, unitOf);
  yield* inside(tree);
}

function* inside(tree) {
  yield* here(tree);
  for (const [part, put] of partsOf(tree)) {
    for (const { tree: changed, kind } of inside(part)) yield { tree: put(changed), kind };
  }
}

function* here(tree) {
  if (tree.kind === "number") {
    const value = tree.value === 0 ? 0.01 : tree.value * 1.01;
    yield { tree: { kind: "number", value: Number(value.toPrecision(12)) }, kind: "constant" };
  }
  if (tree.kind === "negate") yield { tree: tree.of, kind: "sign" };
  if (tree.kind === "binary") {
    const { operator, left, right } = tree;
    if (OPPOSITE[operator] !== undefined)
      yield { tree: { ...tree, operator: OPPOSITE[operator] }, kind: `${operator} to ${OPPOSITE[operator]}` };
    if (operator === "*" || operator === "/") yield { tree: left, kind: "dropped factor" };
    if (operator === "*") yield { tree: right, kind: "dropped factor" };
    if (operator === "+" || operator === "-") yield { tree: left, kind: "dropped term" };
    if (operator === "+") yield { tree: right, kind: "dropped term" };
    if (operator === "^") yield { tree: left, kind: "dropped power" };
  }
  if (tree.kind === "call" && (tree.name === "min" || tree.name === "max")) {
    const name = tree.name === "min" ? "max" : "min";
    yield { tree: { ...tree, name }, kind: `${tree.name} to ${name}` };
  }
  if (tree.kind === "choose") {
    const operator = COMPARISONS[tree.when.operator];
    yield { tree: { ...tree, when: { ...tree.when, operator } }, kind: "comparison" };
  }
}

/** Parts of a node, each with what puts another in its place. */
function partsOf(tree) {
  switch (tree.kind) {
    case "negate":
      return [[tree.of, (of) => ({ ...tree, of })]];
    case "binary":
      return ["left", "right"].map((side) => [tree[side], (part) => ({ ...tree, [side]: part })]);
    case "call":
      return tree.of.map((part, i) => [part, (other) => ({ ...tree, of: tree.of.with(i, other) })]);
    case "choose":
      return [
        ...["left", "right"].map((side) => [
          tree.when[side],
          (part) => ({ ...tree, when: { ...tree.when, [side]: part } }),
        ]),
        ...["chosen", "otherwise"].map((side) => [tree[side], (part) => ({ ...tree, [side]: part })]),
      ];
    default:
      return [];
  }
}

/** Two symbols of one unit in each other's place. */
function* swapsOf(tree, unitOf) {
  const names = [...new Set(symbolsIn(tree))];
  for (const [i, a] of names.entries()) {
    for (const b of names.slice(i + 1)) {
      if (unitOf(a) === undefined || unitOf(a) !== unitOf(b)) continue;
      yield { tree: renamed(tree, { [a]: b, [b]: a }), kind: `${a} and ${b} swapped` };
    }
  }
}

function symbolsIn(tree) {
  return tree.kind === "symbol" ? [tree.name] : partsOf(tree).flatMap(([part]) => symbolsIn(part));
}

function renamed(tree, names) {
  if (tree.kind === "symbol") return { ...tree, name: names[tree.name] ?? tree.name };
  return partsOf(tree).reduce((made, _, i) => {
    const [part, put] = partsOf(made)[i];
    return put(renamed(part, names));
  }, tree);
}
