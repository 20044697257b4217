/** An entry of the catalogue, as its file says it. */

import type { Parameter } from "../quantities/parameter.ts";
import type { Kind } from "./kinds.ts";
import type { ModelErrors } from "./model-error.ts";

export type Parameters = Readonly<Record<string, Parameter>>;

export interface Entry {
  readonly kind: Kind;
  readonly name: string;
  readonly title: string;
  /** What it claims and what it does not claim. */
  readonly about: string;
  /** The entry of the same kind that this one is laid over. */
  readonly from?: string;
  /** The key `kind` of its file, such as `transistor` of a selector. */
  readonly variant?: string;
  readonly values: Parameters;
  /** What else the file holds: breakdown, boundary, organisation of a chip. */
  readonly more: Readonly<Record<string, unknown>>;
}

/** Where the texts of the catalogue come from: a folder, a bundle, or a test's memory. */
export interface Loader {
  /**
   * The text of one file, undefined where there is none. `sources` is the kind of the one source
   * file.
   */
  read(kind: Kind | "sources", name: string): string | undefined;
  names(kind: Kind): readonly string[];
  /** The entry of that text where it was read before, so that it need not be read again. */
  prepared?(kind: Kind, name: string, text: string): Entry | undefined;
  /** The model error that published silicon shows, where that is known. */
  modelErrors?(): ModelErrors | undefined;
}
