/** A file of one definition, such as a plan of the evidence, to its typed value. */

import type { Place } from "../errors/problem.ts";
import type { Field } from "./field.ts";
import { placeIn } from "./locate.ts";
import { readField } from "./read.ts";
import { Reading } from "./report.ts";
import { locatedTree } from "./yaml/tree.ts";

export interface PlainFile<T> {
  readonly value: T;
  /** Where a JSON pointer leads to. */
  place(path: string): Place;
}

/**
 * Reads a file by its definition.
 * @throws TenfoldError with every mistake of the file at its place
 */
export function readPlainFile<T>(text: string, file: string, field: Field<T>): PlainFile<T> {
  const tree = locatedTree(text, file);
  const origin = { source: "this file", basis: "user", keyPrefix: "" } as const;
  const reading = new Reading(tree.source, tree.problems, origin);
  const value = readField(tree.root, field, { name: "", path: "" }, reading);
  reading.finish();
  return { value: value!, place: (path) => placeIn(tree, path) };
}
