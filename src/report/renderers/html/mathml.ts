/**
 * Formulas for pages: the LaTeX that `formulas/latex.ts` and the symbols of sheets are written in, as MathML.
 *
 * That language is small and closed, so a parser of it is shorter than what a typesetting library's output would need
 * afterwards: libraries set every letter of a word apart, which screen readers spell, and style by attributes, which
 * the page's policy forbids.
 */

import { escapeHtml } from "./escape.ts";

/** Markup, and about how many characters wide it will stand. */
interface Typeset {
  readonly html: string;
  readonly width: number;
  /** Whether it is one element, which needs no row around it. */
  readonly alone?: boolean;
}

/** Characters beyond which a line of a formula leaves a page's column; narrower ones show the text alone. */
const MOST_WIDE = 80;
/** Of what stands as an index or exponent. */
const SMALL = 0.7;

const NAMES: Readonly<Record<string, string>> = {
  alpha: "α",
  beta: "β",
  gamma: "γ",
  delta: "δ",
  epsilon: "ϵ",
  varepsilon: "ε",
  zeta: "ζ",
  eta: "η",
  theta: "θ",
  iota: "ι",
  kappa: "κ",
  lambda: "λ",
  mu: "μ",
  nu: "ν",
  xi: "ξ",
  pi: "π",
  rho: "ρ",
  sigma: "σ",
  tau: "τ",
  upsilon: "υ",
  phi: "ϕ",
  varphi: "φ",
  chi: "χ",
  psi: "ψ",
  omega: "ω",
  Gamma: "Γ",
  Delta: "Δ",
  Theta: "Θ",
  Lambda: "Λ",
  Xi: "Ξ",
  Pi: "Π",
  Sigma: "Σ",
  Phi: "Φ",
  Psi: "Ψ",
  Omega: "Ω",
  hbar: "ħ",
  min: "min",
  max: "max",
  exp: "exp",
  ln: "ln",
  log: "log",
  sinh: "sinh",
  cosh: "cosh",
  tanh: "tanh",
};

const SIGNS: Readonly<Record<string, string>> = {
  cdot: "·",
  times: "×",
  le: "≤",
  ge: "≥",
  ne: "≠",
  lceil: "⌈",
  rceil: "⌉",
  lfloor: "⌊",
  rfloor: "⌋",
};

const TOKEN = /\\[A-Za-z]+|\\.|[A-Za-z]|\d+(?:\.\d+)?|\S/g;

/** What this file does not know: the formula stays text. */
class Unknown extends Error {}

/**
 * A formula as a `math` element, broken before its sums where it is too wide for a line.
 *
 * @param latex in the language of `formulaLatex`
 * @returns undefined where it holds anything else, or has a part that fits no line
 */
export function formulaMathml(latex: string): string | undefined {
  try {
    const parser = new Parser(latex);
    const terms = parser.terms();
    const lines = linesOf(terms);
    if (lines === undefined) return undefined;
    if (lines.length === 1) return `<math display="block">${lines[0]}</math>`;
    const rows = lines.map((line) => `<mtr><mtd>${line}</mtd></mtr>`).join("");
    return `<math display="block"><mtable>${rows}</mtable></math>`;
  } catch (error) {
    if (error instanceof Unknown) return undefined;
    throw error;
  }
}

/** A symbol within a text. @returns undefined where it holds what this file does not know */
export function symbolMathml(latex: string): string | undefined {
  try {
    return `<math>${new Parser(latex)
      .terms()
      .map(({ html }) => html)
      .join("")}</math>`;
  } catch (error) {
    if (error instanceof Unknown) return undefined;
    throw error;
  }
}

/** Terms put into lines; undefined where one alone is too wide. */
function linesOf(terms: readonly Typeset[]): string[] | undefined {
  const lines: { html: string; width: number }[] = [];
  for (const term of terms) {
    if (term.width > MOST_WIDE) return undefined;
    const last = lines.at(-1);
    if (last === undefined || last.width + term.width > MOST_WIDE) lines.push({ ...term });
    else {
      last.html += term.html;
      last.width += term.width;
    }
  }
  return lines.map(({ html }) => `<mrow>${html}</mrow>`);
}

function joined(sets: readonly Typeset[]): Typeset {
  if (sets.length === 1) return sets[0]!;
  return {
    html: sets.map(({ html }) => html).join(""),
    width: sets.reduce((sum, { width }) => sum + width, 0),
  };
}

function leaf(tag: string, text: string): Typeset {
  return { html: `<${tag}>${escapeHtml(text)}</${tag}>`, width: text.length, alone: true };
}

class Parser {
  private readonly tokens: readonly string[];
  private at = 0;
  /** Where the last word ended. */
  private wordEnd = -1;

  constructor(latex: string) {
    this.tokens = latex.match(TOKEN) ?? [];
  }

  /** The whole formula, cut before each sign of a sum and after what it is equal to. */
  terms(): Typeset[] {
    const terms: Typeset[][] = [[]];
    while (this.at < this.tokens.length) {
      const token = this.tokens[this.at]!;
      if ((token === "+" || token === "-") && terms.at(-1)!.length > 0) terms.push([]);
      const item = this.item();
      terms.at(-1)!.push(item);
    }
    return terms.map(joined);
  }

  /** Items up to one of the given tokens, which is left. */
  private until(...ends: readonly string[]): Typeset {
    const items: Typeset[] = [];
    while (!ends.includes(this.peek())) items.push(this.item());
    return joined(items);
  }

  private item(): Typeset {
    const base = this.atom();
    let below: Typeset | undefined;
    let above: Typeset | undefined;
    for (;;) {
      const token = this.tokens[this.at];
      if (token === "_" && below === undefined) below = this.script();
      else if (token === "^" && above === undefined) above = this.script();
      else break;
    }
    if (below === undefined && above === undefined) return base;
    const width = base.width + SMALL * Math.max(below?.width ?? 0, above?.width ?? 0);
    if (above === undefined) return { html: `<msub>${base.html}${below!.html}</msub>`, width };
    if (below === undefined) return { html: `<msup>${base.html}${above.html}</msup>`, width };
    return { html: `<msubsup>${base.html}${below.html}${above.html}</msubsup>`, width };
  }

  private script(): Typeset {
    this.at += 1;
    return this.atom();
  }

  private atom(): Typeset {
    const token = this.next();
    if (token === "{") return this.group();
    if (/^\d/.test(token)) return leaf("mn", token);
    if (/^[A-Za-z]$/.test(token)) return leaf("mi", token);
    if (token === "-") return { html: "<mo>−</mo>", width: 3 };
    if ("+=<>".includes(token)) return { ...leaf("mo", token), width: 3 };
    if ("()[],!|*:".includes(token)) return leaf("mo", token);
    if (token === "'") return leaf("mo", "′");
    if (!token.startsWith("\\")) throw new Unknown();
    return this.command(token.slice(1));
  }

  /** What stands in braces: letters and digits alone are a word. */
  private group(): Typeset {
    const end = this.tokens.indexOf("}", this.at);
    const letters = this.tokens.slice(this.at, end);
    if (letters.length > 1 && letters.every((one) => /^[A-Za-z,]$|^\d+$/.test(one))) {
      this.at = end + 1;
      return leaf("mi", letters.join(""));
    }
    const inner = this.until("}");
    this.at += 1;
    return inner.alone ? inner : { html: `<mrow>${inner.html}</mrow>`, width: inner.width };
  }

  private command(name: string): Typeset {
    if (name === ",") return this.product();
    if (name === " ") return { html: '<mspace width="0.3em"></mspace>', width: 0.5 };
    if (name === "mathrm" || name === "operatorname") return this.word("mi");
    if (name === "text") return this.word("mtext");
    if (name === "left") return this.fenced();
    if (name === "frac") return this.fraction();
    if (name === "sqrt") return this.root();
    if (name === "begin") return this.cases();
    if (Object.hasOwn(SIGNS, name)) return { ...leaf("mo", SIGNS[name]!), width: 3 };
    if (Object.hasOwn(NAMES, name)) return leaf("mi", NAMES[name]!);
    throw new Unknown();
  }

  /** A thin space between symbols; words beside each other would read as one. */
  private product(): Typeset {
    const beside = this.wordEnd === this.at - 1 || this.tokens[this.at] === "\\mathrm";
    if (beside) return { ...leaf("mo", "·"), width: 2 };
    return { html: '<mspace width="0.17em"></mspace>', width: 0.3 };
  }

  /** An upright word, with its spaces. */
  private word(tag: "mi" | "mtext"): Typeset {
    const parts: string[] = [];
    this.expect("{");
    while (this.peek() !== "}") {
      const token = this.next();
      if (token === "\\ ") parts.push(" ");
      else if (/^[\w.,'-]+$/.test(token)) parts.push(token);
      else throw new Unknown();
    }
    this.at += 1;
    this.wordEnd = this.at;
    const text = parts.join("");
    if (tag === "mtext") return leaf(tag, `${text}\u00a0`);
    const upright = text.length === 1 ? ' mathvariant="normal"' : "";
    return { html: `<mi${upright}>${escapeHtml(text)}</mi>`, width: text.length, alone: true };
  }

  private fenced(): Typeset {
    const open = this.atom();
    const inner = this.until("\\right");
    this.at += 1;
    const close = this.atom();
    return {
      html: `<mrow>${open.html}${inner.html}${close.html}</mrow>`,
      width: inner.width + 2,
    };
  }

  private fraction(): Typeset {
    const [above, below] = [this.atom(), this.atom()];
    return {
      html: `<mfrac>${above.html}${below.html}</mfrac>`,
      width: Math.max(above.width, below.width) + 1,
    };
  }

  private root(): Typeset {
    if (this.peek() !== "[") {
      const inner = this.atom();
      return { html: `<msqrt>${inner.html}</msqrt>`, width: inner.width + 2 };
    }
    this.at += 1;
    const degree = this.until("]");
    this.at += 1;
    const inner = this.atom();
    return {
      html: `<mroot>${inner.html}<mrow>${degree.html}</mrow></mroot>`,
      width: inner.width + 2,
    };
  }

  /** One of several, by a condition. */
  private cases(): Typeset {
    if (this.tokens.slice(this.at, this.at + 7).join("") !== "{cases}") throw new Unknown();
    this.at += 7;
    const rows: Typeset[] = [];
    for (;;) {
      const value = this.until("&");
      this.at += 1;
      const when = this.until("\\\\", "\\end");
      rows.push({
        html: `<mtr><mtd>${value.html}</mtd><mtd>${when.html}</mtd></mtr>`,
        width: value.width + when.width + 2,
      });
      if (this.next() === "\\end") break;
    }
    this.at += 7;
    const table = `<mtable>${rows.map(({ html }) => html).join("")}</mtable>`;
    return {
      html: `<mrow><mo>{</mo>${table}</mrow>`,
      width: Math.max(...rows.map(({ width }) => width)) + 2,
    };
  }

  private peek(): string {
    const token = this.tokens[this.at];
    if (token === undefined) throw new Unknown();
    return token;
  }

  private next(): string {
    const token = this.peek();
    this.at += 1;
    return token;
  }

  private expect(token: string): void {
    if (this.next() !== token) throw new Unknown();
  }
}
