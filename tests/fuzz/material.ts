import { dump } from "js-yaml";
import type { Schema } from "./from-schema.ts";

/** What the generated texts are made from. */
export interface Material {
  readonly schema: Schema;
  /** Names of the catalogue by kind, as the schema refers to them. */
  readonly names: Readonly<Record<string, readonly string[]>>;
  /** By kind of entry, and `override` for parameters of designs: values that each field has somewhere. */
  readonly known: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>;
  /** What claims are about. */
  readonly functions: readonly string[];
  /** Texts of the demo studies. */
  readonly demos: readonly string[];
}

/** What a text is to the program. */
export type Kind = "study" | "crossbar" | "switch";

/** A text that may be one of those, and how it was made. */
export interface Case {
  readonly kind: Kind;
  readonly how: string;
  readonly text: string;
}

const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/i;

/** The same quantity so many powers of ten away. */
export function gentle(text: string, decades: number): string {
  return text.replace(NUMBER, (number) =>
    String(Number((Number(number) * 10 ** decades).toPrecision(3))),
  );
}

/** Whether a text begins with a number. */
export function isQuantity(value: unknown): boolean {
  return typeof value === "number" || (typeof value === "string" && NUMBER.test(value));
}

/** As YAML; what YAML can't write becomes JSON, which is YAML too. */
export function written(value: object): string {
  try {
    return dump(value, { noRefs: true });
  } catch {
    return JSON.stringify(value);
  }
}

/** Selectors that are no part of a crossbar: of the process, or of a memory process. */
const IN_SILICON = ["transistor", "array-transistor", "array-diode"];

/** Whether a cell's selector is one of those, by name or from its start. */
export function isSilicon(selector: unknown): boolean {
  const { from, kind } = (Object(selector) === selector ? selector : { from: selector }) as {
    readonly from?: unknown;
    readonly kind?: unknown;
  };
  return IN_SILICON.includes(String(kind ?? from));
}
