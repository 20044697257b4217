/**
 * Characters that act rather than show: controls (terminal escapes among them), the marks that turn the direction of
 * writing, line separators, invisible tags and halves of surrogate pairs. Joiners and variation selectors stay: scripts
 * and emoji need them.
 */
const ACTING = new RegExp(
  [
    "[\\u0000-\\u001f\\u007f-\\u009f\\u061c\\u200b\\u200e\\u200f\\u2028-\\u202e\\u2060-\\u206f]",
    "[\\ufeff\\ufff9-\\ufffb\\u{e0000}-\\u{e007f}]",
    "\\p{Surrogate}",
  ].join("|"),
  "gu",
);

/** One line of text in which nothing acts: white space becomes a space, what else would act becomes U+FFFD. */
export function plain(text: string): string {
  return text.replace(/[\t\n\r\f\v\u2028\u2029]+/g, " ").replace(ACTING, "\ufffd");
}

/** At most `length` characters, with `…` in place of what is cut. */
export function clip(text: string, length: number): string {
  if (text.length <= length) return text;
  const characters = [...text];
  return characters.length <= length ? text : `${characters.slice(0, length - 1).join("")}…`;
}

/** Letters that a terminal without Unicode can show. */
const ASCII: Readonly<Record<string, string>> = {
  "×": "x",
  "–": "-",
  "—": "-",
  "·": "|",
  "…": "...",
  "█": "#",
  "▌": "#",
  µ: "u",
  μ: "u",
  Ω: "ohm",
  "°": "deg ",
  "²": "^2",
  "³": "^3",
  "⁻": "^-",
  "¹": "1",
  "∞": "inf",
  "≤": "<=",
  "≥": ">=",
  "≈": "~",
  "−": "-",
  σ: "sigma",
  "→": "->",
  "\u00a0": " ",
  "\u202f": " ",
};

/** The nearest text in ASCII: accents go, signs are spelled, the rest becomes `?`. */
export function ascii(text: string): string {
  return [...text]
    .map((c) => ASCII[c] ?? c)
    .join("")
    .normalize("NFKD")
    .replace(/\p{Mark}/gu, "")
    .replace(/[^\x20-\x7e]/g, "?");
}
