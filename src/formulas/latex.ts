/** Trees as LaTeX, for math mode with amsmath. */

import type { FunctionName, Tree } from "./tree.ts";

const CHOICE = 0;
const SUM = 1;
const PRODUCT = 2;
const NEGATED = 3;
const POWER = 4;
const ATOM = 5;

interface Printed {
  readonly text: string;
  readonly level: number;
}

const GREEK = new Set(
  (
    "alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi pi rho sigma tau " +
    "upsilon phi chi psi omega Gamma Delta Theta Lambda Xi Pi Sigma Phi Psi Omega"
  ).split(" "),
);

/** Functions that stand before a bracket. */
const NAMED: Partial<Readonly<Record<FunctionName, string>>> = {
  min: "\\min",
  max: "\\max",
  round: "\\operatorname{round}",
  exp: "\\exp",
  log: "\\ln",
  log2: "\\log_{2}",
  log10: "\\log_{10}",
  sinh: "\\sinh",
  cosh: "\\cosh",
  tanh: "\\tanh",
  asinh: "\\operatorname{arsinh}",
  acosh: "\\operatorname{arcosh}",
  erfc: "\\operatorname{erfc}",
  normal_quantile: "\\Phi^{-1}",
  normal_tail: "Q",
  gamma: "\\Gamma",
  binomial_tail: "P_{\\mathrm{binomial}}",
  poisson_tail: "P_{\\mathrm{Poisson}}",
};

/** Functions that enclose their argument. */
const ENCLOSING: Partial<Readonly<Record<FunctionName, readonly [string, string]>>> = {
  sqrt: ["\\sqrt{", "}"],
  cbrt: ["\\sqrt[3]{", "}"],
  abs: ["\\left|", "\\right|"],
  ceil: ["\\left\\lceil ", "\\right\\rceil"],
  floor: ["\\left\\lfloor ", "\\right\\rfloor"],
};

const SIGNS = { "<": "<", "<=": "\\le", ">": ">", ">=": "\\ge", "==": "=", "!=": "\\ne" } as const;

/**
 * The LaTeX of a tree.
 *
 * @param tree the formula
 * @param symbols the LaTeX of a name where its sheet states one; others are made from the name
 */
export function formulaLatex(
  tree: Tree,
  symbols: ReadonlyMap<string, string> | ((name: string) => string | undefined),
): string {
  const of = typeof symbols === "function" ? symbols : (name: string) => symbols.get(name);
  return print(tree, (name) => of(name) ?? latexName(name)).text;
}

/**
 * A name as a symbol: `tau` is a Greek letter, `R_on` gets an upright subscript, `wire_width`
 * becomes upright words.
 */
export function latexName(name: string): string {
  const [head = "", ...rest] = name.split("_").filter((word) => word !== "");
  const letter = GREEK.has(head) ? `\\${head}` : head.length === 1 ? head : undefined;
  if (letter === undefined) return `\\mathrm{${[head, ...rest].join("\\ ")}}`;
  return rest.length === 0 ? letter : `${letter}_{\\mathrm{${rest.join("\\ ")}}}`;
}

/** A number: powers of ten outside 0.001 to 100000. */
export function latexNumber(value: number): string {
  const size = Math.abs(value);
  if (value === 0 || (size >= 1e-3 && size < 1e5)) return String(value);
  const [digits = "", exponent = ""] = value.toExponential().split("e");
  const power = `10^{${Number(exponent)}}`;
  if (digits === "1") return power;
  return digits === "-1" ? `-${power}` : `${digits} \\times ${power}`;
}

function print(tree: Tree, names: (name: string) => string): Printed {
  const inner = (part: Tree, least: number): string => {
    const { text, level } = print(part, names);
    return level < least ? `\\left(${text}\\right)` : text;
  };
  switch (tree.kind) {
    case "number":
      return number(tree.value);
    case "symbol":
      return { text: names(tree.name), level: ATOM };
    case "negate":
      return { text: `-${inner(tree.of, POWER)}`, level: NEGATED };
    case "binary":
      return binary(tree, inner, names);
    case "call":
      return call(tree, inner);
    case "choose": {
      const { operator, left, right } = tree.when;
      const when = `${inner(left, CHOICE)} ${SIGNS[operator]} ${inner(right, CHOICE)}`;
      const [then, otherwise] = [inner(tree.chosen, CHOICE), inner(tree.otherwise, CHOICE)];
      const rows = `${then} & \\text{if } ${when} \\\\ ${otherwise} & \\text{otherwise}`;
      return { text: `\\begin{cases} ${rows} \\end{cases}`, level: CHOICE };
    }
  }
}

function number(value: number): Printed {
  const text = latexNumber(value);
  if (text.startsWith("-")) return { text, level: NEGATED };
  if (text.includes("\\times")) return { text, level: PRODUCT };
  return { text, level: text.startsWith("10^") ? POWER : ATOM };
}

function binary(
  tree: Extract<Tree, { kind: "binary" }>,
  inner: (part: Tree, least: number) => string,
  names: (name: string) => string,
): Printed {
  const { operator, left, right } = tree;
  const after = (part: Tree, least: number): string => {
    const text = inner(part, least);
    return text.startsWith("-") ? `\\left(${text}\\right)` : text;
  };
  switch (operator) {
    case "+":
    case "-":
      return { text: `${inner(left, SUM)} ${operator} ${after(right, PRODUCT)}`, level: SUM };
    case "*": {
      const [one, other] = [inner(left, PRODUCT), after(right, PRODUCT)];
      // A number after a factor, or a power of ten before one, needs a visible sign.
      const visible = /^[\d.]/.test(other) || one.includes("\\times");
      return { text: `${one} ${visible ? "\\cdot" : "\\,"} ${other}`, level: PRODUCT };
    }
    case "/": {
      const above = print(left, names);
      const below = inner(right, CHOICE);
      // The minus of a product stands better before the fraction than in it.
      const minus = above.level >= PRODUCT && above.text.startsWith("-") ? "-" : "";
      const text = `${minus}\\frac{${above.text.slice(minus.length)}}{${below}}`;
      return { text, level: minus ? NEGATED : PRODUCT };
    }
    case "^": {
      const base = print(left, names);
      // A symbol that carries a superscript of its own, or a call, is bracketed.
      const atom = base.level === ATOM && left.kind !== "call" && !/[\^']/.test(base.text);
      const shown = atom ? base.text : `\\left(${base.text}\\right)`;
      return { text: `${shown}^{${inner(right, CHOICE)}}`, level: POWER };
    }
  }
}

function call(
  tree: Extract<Tree, { kind: "call" }>,
  inner: (part: Tree, least: number) => string,
): Printed {
  if (tree.name === "expm1")
    return { text: `\\exp\\left(${inner(tree.of[0]!, CHOICE)}\\right) - 1`, level: SUM };
  if (tree.name === "log1p") {
    const of = inner(tree.of[0]!, SUM);
    const sum = of.startsWith("-") ? `1 - ${of.slice(1)}` : `1 + ${of}`;
    return { text: `\\ln\\left(${sum}\\right)`, level: ATOM };
  }
  const list = tree.of.map((part) => inner(part, CHOICE)).join(", ");
  const around = ENCLOSING[tree.name];
  if (around) return { text: `${around[0]}${list}${around[1]}`, level: ATOM };
  const name = NAMED[tree.name] ?? `\\operatorname{${tree.name}}`;
  return { text: `${name}\\left(${list}\\right)`, level: ATOM };
}
