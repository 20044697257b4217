/** Small edits of a study's text that leave all else as it stands: comments, order, spelling. */

import { child, locatedTree, type MappingNode, type Node } from "../../schema/yaml/tree.ts";
import { endOf, isFlow } from "./extent.ts";

/** What is written where a figure did not stand before: its range goes along. */
export interface WrittenRange {
  readonly low: string;
  readonly high: string;
}

/** The path of a value in a study. */
export type Path = readonly string[];

/** What stands for a name that gets values laid over it. */
const FROM = "from";
const VALUE = "value";
/** Keys under which a plain word names an entry of the catalogue. */
const ENTRIES = ["switch", "selector", "technology", "baseline"];
const STEP = "  ";

/**
 * The text with another value at the path. A figure in long form keeps its range and its source; one that stood nowhere
 * is added with a range, at the end of the innermost mapping that is there.
 *
 * @param text a study that can be read as YAML
 * @param value as it stands behind the key
 * @throws TenfoldError where the text is no YAML
 */
export function withFigure(text: string, path: Path, value: string, range?: WrittenRange): string {
  const { root } = locatedTree(text, "study.yaml");
  let node: Node = root;
  for (const [depth, key] of path.entries()) {
    const entry = child(node, key);
    if (entry === undefined) {
      return withRest(text, node, path.slice(depth), inserted(value, range), path[depth - 1]);
    }
    node = entry.value;
  }
  const own = node.kind === "mapping" ? child(node, VALUE)?.value : node;
  if (own === undefined) return withRest(text, node, [VALUE], value, undefined);
  return replaced(text, own.start, own.kind === "scalar" ? own.end : endOf(text, own), value);
}

/** The text of the value at the path; undefined where there is none. */
export function figureText(text: string, path: Path): string | undefined {
  let node: Node | undefined = locatedTree(text, "study.yaml").root;
  for (const key of path) node = child(node, key)?.value;
  const own = node?.kind === "mapping" ? child(node, VALUE)?.value : node;
  return own?.kind === "scalar" ? own.text : undefined;
}

function inserted(value: string, range: WrittenRange | undefined): string {
  return range === undefined ? value : `{value: ${value}, low: ${range.low}, high: ${range.high}}`;
}

/** Adds the keys that are missing below a node. @param above the key of the node */
function withRest(
  text: string,
  node: Node,
  rest: Path,
  value: string,
  above: string | undefined,
): string {
  if (node.kind === "mapping") {
    return isFlow(text, node) ? inFlow(text, node, rest, value) : inBlock(text, node, rest, value);
  }
  if (node.kind === "list") return text;
  const named = text.slice(node.start, node.end);
  // The word form of a cell names an all-CMOS one.
  const own = above === "cell" && rest[0] === "baseline" && node.value !== null;
  const more = own
    ? `baseline: {${FROM}: ${named}, ${flowText(rest.slice(1), value)}}`
    : `${headOf(above, node.value, named)}${flowText(rest, value)}`;
  return replaced(text, node.start, node.end, `{${more}}`);
}

/** How the plain word that stood there goes on in a mapping. */
function headOf(above: string | undefined, value: unknown, named: string): string {
  if (value === null) return "";
  if (above === "tile") return "";
  return above !== undefined && ENTRIES.includes(above)
    ? `${FROM}: ${named}, `
    : `${VALUE}: ${named}, `;
}

/** `a: {b: value}`. */
function flowText([key, ...rest]: Path, value: string): string {
  return rest.length === 0 ? `${key}: ${value}` : `${key}: {${flowText(rest, value)}}`;
}

function inFlow(text: string, node: MappingNode, rest: Path, value: string): string {
  const close = endOf(text, node) - 1;
  const more = flowText(rest, value);
  const before = text.slice(0, close).trimEnd();
  return replaced(text, before.length, before.length, before.endsWith("{") ? more : `, ${more}`);
}

/** A line behind the last one of the mapping, as far in as its keys. */
function inBlock(text: string, node: MappingNode, [key, ...rest]: Path, value: string): string {
  const first = node.entries[0]!.keySpan.start;
  const indent = " ".repeat(first - lineStart(text, first));
  const lines =
    rest.length === 0
      ? [`${indent}${key}: ${value}`]
      : [`${indent}${key}:`, `${indent}${STEP}${flowText(rest, value)}`];
  const end = endOf(text, node.entries.at(-1)!.value);
  if (end > 0 && text[end - 1] === "\n") return replaced(text, end, end, `${lines.join("\n")}\n`);
  const lineEnd = text.indexOf("\n", end);
  const at = lineEnd < 0 ? text.length : lineEnd;
  return replaced(text, at, at, `\n${lines.join("\n")}`);
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf("\n", at - 1) + 1;
}

function replaced(text: string, start: number, end: number, by: string): string {
  return text.slice(0, start) + by + text.slice(end);
}
