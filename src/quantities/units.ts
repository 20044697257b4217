/**
 * The table of units. Factors are exact: the SI brochure (9th edition, 2019) and IEC 80000-13:2008
 * (bit, byte, Ki).
 */

import type { Rational } from "./dimension.ts";

export interface UnitDefinition {
  /** In SI base units, exact decimal text. */
  readonly factor: string;
  /** Whole exponents of m, kg, s, A, K. */
  readonly base: readonly [number, number, number, number, number];
  /** Prefixes that make sense; the others are refused, since `PF` is a slip for `pF`. */
  readonly prefixes: readonly string[];
  readonly meaning: string;
  /** Exponent of information: 1 for bit and byte. */
  readonly information?: 1;
  /** Added after scaling; only for a temperature on its own. */
  readonly offset?: string;
}

/** Powers of ten of the SI prefixes, and of two of the binary ones. */
export const SI_PREFIXES: Readonly<Record<string, number>> = {
  y: -24,
  z: -21,
  a: -18,
  f: -15,
  p: -12,
  n: -9,
  u: -6,
  m: -3,
  c: -2,
  d: -1,
  k: 3,
  M: 6,
  G: 9,
  T: 12,
  P: 15,
};
export const BINARY_PREFIXES: Readonly<Record<string, number>> = {
  Ki: 10,
  ki: 10,
  Mi: 20,
  Gi: 30,
  Ti: 40,
  Pi: 50,
};

const SMALL = ["z", "a", "f", "p", "n", "u", "m"];
const UP = ["k", "M", "G"];
const BITS = ["k", "M", "G", "T", "P", ...Object.keys(BINARY_PREFIXES)];
const NONE: readonly string[] = [];
const PURE = [0, 0, 0, 0, 0] as const;

/** A counted thing: dimensionless, with prefixes for large counts. */
function counted(meaning: string): UnitDefinition {
  return { factor: "1", base: PURE, prefixes: UP, meaning };
}

function time(factor: string, meaning: string): UnitDefinition {
  return { factor, base: [0, 0, 1, 0, 0], prefixes: NONE, meaning };
}

export const UNITS: Readonly<Record<string, UnitDefinition>> = {
  m: { factor: "1", base: [1, 0, 0, 0, 0], prefixes: [...SMALL, "c", "d", "k"], meaning: "metre" },
  g: { factor: "1e-3", base: [0, 1, 0, 0, 0], prefixes: [...SMALL, "k"], meaning: "gram" },
  s: { factor: "1", base: [0, 0, 1, 0, 0], prefixes: SMALL, meaning: "second" },
  A: { factor: "1", base: [0, 0, 0, 1, 0], prefixes: [...SMALL, "k"], meaning: "ampere" },
  K: { factor: "1", base: [0, 0, 0, 0, 1], prefixes: ["m"], meaning: "kelvin" },
  degC: {
    factor: "1",
    base: [0, 0, 0, 0, 1],
    prefixes: NONE,
    offset: "273.15",
    meaning: "degree Celsius, a temperature and never a difference",
  },
  V: { factor: "1", base: [2, 1, -3, -1, 0], prefixes: [...SMALL, "k", "M"], meaning: "volt" },
  ohm: {
    factor: "1",
    base: [2, 1, -3, -2, 0],
    prefixes: ["u", "m", ...UP, "T", "P"],
    meaning: "ohm",
  },
  S: { factor: "1", base: [-2, -1, 3, 2, 0], prefixes: [...SMALL, "k"], meaning: "siemens" },
  F: { factor: "1", base: [-2, -1, 4, 2, 0], prefixes: SMALL, meaning: "farad" },
  H: { factor: "1", base: [2, 1, -2, -2, 0], prefixes: SMALL, meaning: "henry" },
  C: { factor: "1", base: [0, 0, 1, 1, 0], prefixes: SMALL, meaning: "coulomb" },
  J: { factor: "1", base: [2, 1, -2, 0, 0], prefixes: [...SMALL, "k", "M"], meaning: "joule" },
  W: { factor: "1", base: [2, 1, -3, 0, 0], prefixes: [...SMALL, "k", "M"], meaning: "watt" },
  N: { factor: "1", base: [1, 1, -2, 0, 0], prefixes: [...SMALL, "k"], meaning: "newton" },
  Pa: { factor: "1", base: [-1, 1, -2, 0, 0], prefixes: UP, meaning: "pascal" },
  Hz: { factor: "1", base: [0, 0, -1, 0, 0], prefixes: ["m", ...UP, "T"], meaning: "hertz" },
  // The elementary charge is exact since 2019.
  eV: {
    factor: "1.602176634e-19",
    base: [2, 1, -2, 0, 0],
    prefixes: ["u", "m", "k", "M"],
    meaning: "electronvolt",
  },
  min: time("60", "minute"),
  h: time("3600", "hour"),
  day: time("86400", "day"),
  year: time("31557600", "Julian year of 365.25 days"),
  bit: { factor: "1", base: PURE, prefixes: BITS, information: 1, meaning: "bit" },
  b: { factor: "1", base: PURE, prefixes: BITS, information: 1, meaning: "bit" },
  B: { factor: "8", base: PURE, prefixes: BITS, information: 1, meaning: "byte of 8 bits" },
  "%": { factor: "1e-2", base: PURE, prefixes: NONE, meaning: "per cent" },
  ppm: { factor: "1e-6", base: PURE, prefixes: NONE, meaning: "parts per million" },
  cycle: counted("cycle"),
  decade: { ...counted("factor of ten, as in mV/decade"), prefixes: NONE },
  gate: counted("two-input NAND gate, as in kgate/mm^2"),
};

/** Other spellings that are accepted. */
export const SPELLINGS: Readonly<Record<string, string>> = {
  Ω: "ohm",
  "\u2126": "ohm",
  "°C": "degC",
  "℃": "degC",
  bits: "bit",
  cycles: "cycle",
  decades: "decade",
  gates: "gate",
  days: "day",
  years: "year",
};

/** Words that people write, with the unit that they mean: suggestions only. */
export const MEANT: Readonly<Record<string, string>> = {
  sec: "s",
  second: "s",
  seconds: "s",
  minute: "min",
  minutes: "min",
  hr: "h",
  hour: "h",
  hours: "h",
  d: "day",
  yr: "year",
  a: "year",
  micron: "um",
  microns: "um",
  Å: "0.1 nm",
  Kb: "Kib (1024 bit) or kb (1000 bit)",
  Kbit: "Kibit (1024 bit) or kbit (1000 bit)",
  KB: "KiB (1024 byte) or kB (1000 byte)",
  ohms: "ohm",
  volt: "V",
  volts: "V",
  amp: "A",
  amps: "A",
  ampere: "A",
  watt: "W",
  watts: "W",
  joule: "J",
  farad: "F",
  hertz: "Hz",
  byte: "B",
  bytes: "B",
  percent: "%",
  celsius: "degC",
  "°": "degC",
};

export const NO_INFORMATION: Rational = [0, 1];
