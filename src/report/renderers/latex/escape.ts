import { plain } from "../plain.ts";

/** Characters that mean something to TeX. */
const SPECIAL: Readonly<Record<string, string>> = {
  "\\": "\\textbackslash{}",
  "{": "\\{",
  "}": "\\}",
  $: "\\$",
  "&": "\\&",
  "#": "\\#",
  "^": "\\textasciicircum{}",
  _: "\\_",
  "~": "\\textasciitilde{}",
  "%": "\\%",
  "<": "\\textless{}",
  ">": "\\textgreater{}",
  "|": "\\textbar{}",
  '"': "\\textquotedbl{}",
  "`": "\\textasciigrave{}",
  "'": "\\textquotesingle{}",
  "[": "{[}",
  "]": "{]}",
};

/** Signs that our own texts use, in commands that every TeX engine has. */
const SIGNS: Readonly<Record<string, string>> = {
  "×": "\\ensuremath{\\times}",
  "–": "\\textendash{}",
  "—": "\\textemdash{}",
  "·": "\\textperiodcentered{}",
  "…": "\\textellipsis{}",
  µ: "\\textmu{}",
  μ: "\\textmu{}",
  "\u2126": "\\ensuremath{\\Omega}",
  Ω: "\\ensuremath{\\Omega}",
  "°": "\\textdegree{}",
  "⁻": "\\ensuremath{^{-}}",
  "∞": "\\ensuremath{\\infty}",
  "≤": "\\ensuremath{\\leq}",
  "≥": "\\ensuremath{\\geq}",
  "≈": "\\ensuremath{\\approx}",
  "−": "\\ensuremath{-}",
  "→": "\\ensuremath{\\rightarrow}",
  "‘": "\\textquoteleft{}",
  "’": "\\textquoteright{}",
  "“": "\\textquotedblleft{}",
  "”": "\\textquotedblright{}",
  "\u00a0": "~",
  "\u202f": "\\,",
};

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** Letters that `inputenc` knows with the T1 font encoding. */
const LATIN = /^[\u00a1-\u00ff\u0100-\u017f]$/;

/** A text as TeX input in which nothing is a command. A letter that no TeX font of ours has shows as `[U+4E2D]`. */
export function escapeLatex(text: string): string {
  return [...plain(text)]
    .map(escapeCharacter)
    .join("")
    .replace(/-(?=-)/g, "-{}");
}

function escapeCharacter(c: string): string {
  const known = SPECIAL[c] ?? SIGNS[c];
  if (known !== undefined) return known;
  if (c >= " " && c <= "~") return c;
  const digit = SUPERSCRIPTS.indexOf(c);
  if (digit >= 0) return `\\textsuperscript{${digit}}`;
  if (LATIN.test(c)) return c;
  return `{[}U+${c.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}{]}`;
}
