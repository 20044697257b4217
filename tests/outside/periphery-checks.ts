import { readFileSync } from "node:fs";
import { load } from "js-yaml";

interface DecoderRow {
  readonly address_bits: number;
  readonly outputs: number;
  readonly flat: number;
  readonly predecoded: readonly {
    readonly groups: readonly number[];
    readonly transistors: number;
  }[];
}

const file = new URL("../../shared/checks/row-decoders.yaml", import.meta.url);

/** Counts of row decoders, and the published cases; their sources stand in the file. */
export const decoders = load(readFileSync(file, "utf8")) as { readonly rows: DecoderRow[] };
