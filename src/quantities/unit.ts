/** Unit texts such as `fF/um`, `mV um`, `1/mm^2`, `°C`, read exactly. */

import { refuse } from "../errors/problem.ts";
import { multiplyScales, ONE, powerScale, type Scale, scale, toNumber } from "./decimal.ts";
import {
  addRational,
  DIMENSIONLESS,
  type Dimension,
  multiplyDimensions,
  powerDimension,
  type Rational,
  rational,
  timesRational,
} from "./dimension.ts";
import { suggestUnit } from "./suggest.ts";
import { BINARY_PREFIXES, NO_INFORMATION, SI_PREFIXES, SPELLINGS, UNITS } from "./units.ts";

export {
  DIMENSIONLESS,
  type Dimension,
  dimensionText,
  divideDimensions,
  multiplyDimensions,
  powerDimension,
  sameDimension,
} from "./dimension.ts";

export interface Unit {
  readonly text: string;
  /** What one of it is in SI. */
  readonly factor: number;
  /** The same, exact. */
  readonly scale: Scale;
  /** Added after scaling: only for degC. */
  readonly offset?: string;
  readonly dimension: Dimension;
  /** The exponent of bits: dimensionless, but `1 Mib` is a capacity and `1048576` is not. */
  readonly information: Rational;
}

type Factors = Omit<Unit, "text" | "factor">;

const TOKEN = /\s*(?:([A-Za-zµμΩ\u2126°℃%Å]+)|(\d+)|([*·⋅/()^-])|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))/uy;
const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const NOTHING: Factors = { scale: ONE, dimension: DIMENSIONLESS, information: NO_INFORMATION };
const known = new Map<string, Unit>();
const MOST_KEPT = 1000;
const MOST_LETTERS = 80;

/**
 * Reads a unit text. Products are written with a space, `*` or `·`, quotients with `/`, powers as
 * `um^2`, `um2` or `µm²`; `1` and the empty text are the pure number.
 * @throws TenfoldError `unknown-unit`, `bad-unit`
 */
export function parseUnit(text: string): Unit {
  const kept = known.get(text);
  if (kept !== undefined) return kept;
  if (text.length > MOST_LETTERS) badUnit(`${text.slice(0, 20)}…`, "it is too long");
  const parsed = new Parser(text).parse();
  const unit: Unit = { text, factor: toNumber(parsed.scale), ...parsed };
  if (known.size < MOST_KEPT) known.set(text, unit);
  return unit;
}

/** The dimension of a unit text; bits, cycles and other counts are dimensionless. */
export function dimensionOf(unitText: string): Dimension {
  return parseUnit(unitText).dimension;
}

function badUnit(text: string, why: string): never {
  return refuse({
    code: "bad-unit",
    what: `\`${text}\` can't be read as a unit: ${why}`,
    got: text,
    expected: "unit names with prefixes, joined by a space, `/` and `^`, such as `fF/um`",
  });
}

class Parser {
  readonly text: string;
  readonly tokens: { text: string; space: boolean }[] = [];
  at = 0;

  constructor(text: string) {
    this.text = text;
    TOKEN.lastIndex = 0;
    while (TOKEN.lastIndex < text.trimEnd().length) {
      const from = TOKEN.lastIndex;
      const match = TOKEN.exec(text);
      if (match === null) badUnit(text, `\`${text.slice(from).trim()}\` is no part of a unit`);
      this.tokens.push({ text: match[0].trim(), space: /^\s/.test(match[0]) });
    }
  }

  parse(): Factors {
    if (this.tokens.length === 0) return NOTHING;
    const result = this.product();
    if (this.at < this.tokens.length) badUnit(this.text, `\`${this.peek()}\` is out of place`);
    if (result.offset !== undefined && this.tokens.length > 1) {
      badUnit(this.text, "degC is a temperature on its own; write K in products and quotients");
    }
    return result;
  }

  peek(): string | undefined {
    return this.tokens[this.at]?.text;
  }

  product(): Factors {
    let result = this.peek() === "/" ? NOTHING : this.power();
    let divided = false;
    for (;;) {
      const next = this.peek();
      if (next === undefined || next === ")") return result;
      if (next === "/") {
        this.at++;
        divided = true;
        result = multiply(result, raise(this.power(), [-1, 1]));
      } else if (next === "*" || next === "·" || next === "⋅") {
        this.at++;
        result = multiply(result, this.power());
      } else {
        if (divided) badUnit(this.text, "after `/` use brackets, such as `J/(kg K)`");
        result = multiply(result, this.power());
      }
    }
  }

  power(): Factors {
    const base = this.atom();
    const next = this.tokens[this.at];
    if (next === undefined) return base;
    if (next.text === "^") {
      this.at++;
      return raise(base, this.exponent());
    }
    if (!next.space && /^\d/.test(next.text)) {
      this.at++;
      return raise(base, rational(Number(next.text)));
    }
    if (!/^[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]/.test(next.text)) return base;
    this.at++;
    const digits = [...next.text].map((c) => (c === "⁻" ? "-" : SUPERSCRIPTS.indexOf(c))).join("");
    if (!/^-?\d+$/.test(digits)) badUnit(this.text, `\`${next.text}\` is no power`);
    return raise(base, rational(Number(digits)));
  }

  atom(): Factors {
    const token = this.tokens[this.at++]?.text;
    if (token === undefined) return badUnit(this.text, "it ends too early");
    if (token === "(") {
      const inner = this.product();
      if (this.tokens[this.at++]?.text !== ")") badUnit(this.text, "a bracket isn't closed");
      return inner;
    }
    if (token === "1") return NOTHING;
    return namedUnit(token) ?? badUnit(this.text, `\`${token}\` is out of place`);
  }

  exponent(): Rational {
    const bracket = this.peek() === "(";
    if (bracket) this.at++;
    const numerator = this.whole();
    let denominator = 1;
    if (bracket && this.peek() === "/") {
      this.at++;
      denominator = this.whole();
    }
    if (bracket && this.tokens[this.at++]?.text !== ")") {
      badUnit(this.text, "a bracket isn't closed");
    }
    if (denominator === 0) badUnit(this.text, "a power can't be divided by zero");
    return rational(numerator, denominator);
  }

  whole(): number {
    const negative = this.peek() === "-";
    if (negative) this.at++;
    const digits = this.tokens[this.at++]?.text ?? "";
    if (!/^\d+$/.test(digits)) badUnit(this.text, "a power is a whole number or `(1/2)`");
    return negative ? -Number(digits) : Number(digits);
  }
}

function multiply(a: Factors, b: Factors): Factors {
  const offset = a.offset ?? b.offset;
  return {
    scale: multiplyScales(a.scale, b.scale),
    dimension: multiplyDimensions(a.dimension, b.dimension),
    information: addRational(a.information, b.information),
    ...(offset === undefined ? {} : { offset }),
  };
}

function raise(a: Factors, power: Rational): Factors {
  const [numerator, denominator] = power;
  if (Math.abs(numerator) > 20 || denominator > 12)
    badUnit(`^${numerator}`, "the power is too large");
  const plain = a.scale.numerator === 1n && a.scale.denominator === 1n && a.scale.exponent === 0;
  if (denominator !== 1 && !plain)
    badUnit(`^(${numerator}/${denominator})`, "a root takes SI units without prefix");
  return {
    scale: denominator === 1 ? powerScale(a.scale, numerator) : a.scale,
    dimension: powerDimension(a.dimension, power),
    information: timesRational(a.information, power),
    ...(a.offset === undefined ? {} : { offset: a.offset }),
  };
}

/** A unit name with or without prefix; undefined for what is no word. */
function namedUnit(word: string): Factors | undefined {
  if (/^[\d^)/*·⋅⁻⁰¹²³⁴⁵⁶⁷⁸⁹-]/.test(word)) return undefined;
  const plain = SPELLINGS[word] ?? word;
  if (Object.hasOwn(UNITS, plain)) return factorsOf(plain, ONE);
  for (let length = 1; length <= 2; length++) {
    const prefix = word.slice(0, length).replace(/[µμ]/, "u");
    const rest = word.slice(length);
    const name = SPELLINGS[rest] ?? rest;
    if (!Object.hasOwn(UNITS, name) || !UNITS[name]!.prefixes.includes(prefix)) continue;
    return factorsOf(name, prefixScale(prefix));
  }
  const meant = suggestUnit(word);
  return refuse({
    code: "unknown-unit",
    what: `\`${word}\` isn't a known unit`,
    got: word,
    expected: "an SI unit with or without prefix, bit, B, %, degC, eV, min, h, day or year",
    ...(meant === undefined ? {} : { nearest: meant }),
  });
}

function prefixScale(prefix: string): Scale {
  const binary = BINARY_PREFIXES[prefix];
  if (binary !== undefined)
    return { numerator: 2n ** BigInt(binary), denominator: 1n, exponent: 0 };
  return { numerator: 1n, denominator: 1n, exponent: SI_PREFIXES[prefix]! };
}

function factorsOf(name: string, prefix: Scale): Factors {
  const unit = UNITS[name]!;
  return {
    scale: multiplyScales(prefix, scale(unit.factor)),
    dimension: unit.base.map((exponent) => rational(exponent)),
    information: unit.information === undefined ? NO_INFORMATION : [1, 1],
    ...(unit.offset === undefined ? {} : { offset: unit.offset }),
  };
}
