/** From a JSON pointer to a place in the file. */

import type { Place } from "../errors/problem.ts";
import type { Span } from "./yaml/source.ts";
import { child, type LocatedTree, type Node } from "./yaml/tree.ts";

/**
 * Before the pointers of a study's parameters, so that they never equal the keys of the catalogue.
 */
export const STUDY_KEYS = "study:";

/**
 * The place of what the pointer names. A key that a design lacks is looked for in `defaults`, then
 * at the top of the file; what stands nowhere has the place of the innermost mapping that would
 * hold it.
 */
export function placeIn(tree: LocatedTree, pointer: string, of: "key" | "value" = "value"): Place {
  const path = pointer.startsWith(STUDY_KEYS) ? pointer.slice(STUDY_KEYS.length) : pointer;
  const segments = path.split("/").slice(1).map(unescaped);
  const ways = [segments];
  if (segments[0] === "designs" && segments.length > 2) {
    ways.push(["defaults", ...segments.slice(2)], segments.slice(2));
  }
  for (const way of ways) {
    const found = walk(tree.root, way);
    if (found.complete) return placeOf(tree, found, of);
  }
  return placeOf(tree, walk(tree.root, segments), "key");
}

interface Found {
  readonly node: Node;
  readonly key: Span | undefined;
  readonly complete: boolean;
}

function walk(root: Node, segments: readonly string[]): Found {
  let node = root;
  let key: Span | undefined;
  for (const segment of segments) {
    const entry = child(node, segment);
    const item: Node | undefined =
      node.kind === "list" ? node.items[Number(segment)] : entry?.value;
    if (item === undefined) return { node, key, complete: false };
    key = entry?.keySpan;
    node = item;
  }
  return { node, key, complete: true };
}

/** A mapping or list is marked at its key: it begins somewhere below it. */
function placeOf(tree: LocatedTree, found: Found, of: "key" | "value"): Place {
  const byKey = found.key !== undefined && (of === "key" || found.node.kind !== "scalar");
  const { start, end, source } = byKey ? found.key! : found.node;
  return (source ?? tree.source).place(start, end);
}

function unescaped(segment: string): string {
  return segment.replaceAll("~1", "/").replaceAll("~0", "~");
}
