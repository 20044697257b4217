import { escapeLatex } from "./escape.ts";

const PREFIXES: Readonly<Record<string, string>> = {
  a: "\\atto",
  f: "\\femto",
  p: "\\pico",
  n: "\\nano",
  µ: "\\micro",
  m: "\\milli",
  c: "\\centi",
  k: "\\kilo",
  M: "\\mega",
  G: "\\giga",
  T: "\\tera",
  P: "\\peta",
  Ki: "\\kibi",
  Mi: "\\mebi",
  Gi: "\\gibi",
};

const UNITS: Readonly<Record<string, string>> = {
  m: "\\metre",
  s: "\\second",
  A: "\\ampere",
  V: "\\volt",
  W: "\\watt",
  J: "\\joule",
  F: "\\farad",
  Ω: "\\ohm",
  ohm: "\\ohm",
  S: "\\siemens",
  Hz: "\\hertz",
  K: "\\kelvin",
  H: "\\henry",
  C: "\\coulomb",
  eV: "\\electronvolt",
  bit: "\\bit",
  B: "\\byte",
  "°C": "\\degreeCelsius",
};

const POWERS: Readonly<Record<string, string>> = { "2": "\\squared", "3": "\\cubed" };

/** `mm²` → `\unit{\milli\metre\squared}`; a text that is no unit of ours comes out as escaped text. */
export function latexUnit(display: string): string {
  if (display === "" || display === "1") return "";
  const macros: string[] = [];
  for (const [i, side] of display.split("/").entries()) {
    for (const factor of side.split(/[ ·*]+/).filter((f) => f !== "" && f !== "1")) {
      const macro = factorMacro(factor);
      if (macro === undefined) return escapeLatex(display);
      macros.push(i === 0 ? macro : `\\per${macro}`);
    }
  }
  return `\\unit{${macros.join("")}}`;
}

function factorMacro(factor: string): string | undefined {
  const spelled = factor
    .replace(/[⁰¹²³⁴-⁹]/g, (d) => `^${"⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(d)}`)
    .replace("⁻^", "^-");
  const [symbol = "", power] = spelled.split("^");
  const unit = unitMacro(symbol);
  if (unit === undefined) return undefined;
  if (power === undefined) return unit;
  if (!/^-?\d+$/.test(power)) return undefined;
  return unit + (POWERS[power] ?? `\\tothe{${power}}`);
}

function unitMacro(symbol: string): string | undefined {
  const whole = UNITS[symbol];
  if (whole !== undefined) return whole;
  for (const length of [1, 2]) {
    const prefix = PREFIXES[symbol.slice(0, length)];
    const unit = UNITS[symbol.slice(length)];
    if (prefix !== undefined && unit !== undefined) return prefix + unit;
  }
  return undefined;
}
