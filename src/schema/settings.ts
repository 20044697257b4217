/** Values of the command line laid into a study's tree, as if they stood in the file. */

import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import { VALUE_KEYS } from "./value-keys.ts";
import type { Source, Span } from "./yaml/source.ts";
import {
  child,
  type Entry,
  type LocatedTree,
  locatedTree,
  type MappingNode,
  type Node,
} from "./yaml/tree.ts";

/** One value in place of that of the file. */
export interface Setting {
  /** Keys joined by points, such as `designs.static.tile.rows`; or a JSON pointer. */
  readonly path: string;
  /** YAML, as it would stand behind the key. */
  readonly value: string;
}

/** What places of settings name in place of a file. */
const FILE = "--set";

/**
 * The tree with the values of the settings, later ones over earlier ones. A name such as `cmos-65`,
 * below which a key is set, becomes `from:`; a figure below which `low` or the like is set becomes
 * its `value`.
 * @throws TenfoldError `bad-name` for an empty path, `unknown-design`, and what YAML of a value can
 *   be refused for
 */
export function withSettings(tree: LocatedTree, settings: readonly Setting[]): LocatedTree {
  let { root } = tree;
  const problems = [...tree.problems];
  for (const setting of settings) {
    const segments = segmentsOf(setting.path);
    const text = `${JSON.stringify(segments.join("."))}: ${setting.value}`;
    const parsed = locatedTree(text, FILE);
    problems.push(...parsed.problems);
    const entry = parsed.root.entries[0]!;
    const span = { ...entry.keySpan, source: parsed.source };
    checkDesign(root, segments, span);
    root = replaced(root, segments, owned(entry.value, parsed.source), span) as MappingNode;
  }
  return { source: tree.source, root, problems };
}

function segmentsOf(path: string): string[] {
  const segments = path.startsWith("/")
    ? path
        .slice(1)
        .split("/")
        .map((s) => s.replaceAll("~1", "/").replaceAll("~0", "~"))
    : path.split(".");
  if (segments.every((segment) => segment !== "")) return segments;
  return refuse({
    code: "bad-name",
    what: `\`${path}\` names no value of a study`,
    got: path,
    expected: "keys joined by points, such as `designs.static.tile.rows`",
  });
}

/** A setting must not bring a new design to life by a slip of the pen. */
function checkDesign(root: Node, segments: readonly string[], span: Required<Span>): void {
  const [top, name] = segments;
  const designs = child(root, "designs")?.value;
  if (top !== "designs" || name === undefined || designs?.kind !== "mapping") return;
  if (child(designs, name) !== undefined) return;
  const names = designs.entries.map((entry) => entry.key);
  const nearest = nearestWord(name, names);
  refuse({
    code: "unknown-design",
    what: `\`${name}\` isn't one of the designs`,
    place: span.source.place(span.start, span.end),
    expected: `one of ${names.join(", ")}`,
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** The node with `value` at the path below it. */
function replaced(node: Node | undefined, path: readonly string[], value: Node, span: Span): Node {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  if (node?.kind === "list") {
    const items = [...node.items];
    const at = Number(key);
    if (Number.isInteger(at) && at >= 0 && at < items.length) {
      items[at] = replaced(items[at], rest, value, span);
      return { ...node, items };
    }
  }
  const mapping = mappingOf(node, key, span);
  const old = child(mapping, key);
  const next: Entry = {
    key,
    keySpan: old?.keySpan ?? span,
    value: replaced(old?.value, rest, value, span),
  };
  const entries = mapping.entries.map((entry) => (entry === old ? next : entry));
  return { ...mapping, entries: old === undefined ? [...entries, next] : entries };
}

function mappingOf(node: Node | undefined, key: string, span: Span): MappingNode {
  if (node?.kind === "mapping") return node;
  const entries: Entry[] = [];
  if (node?.kind === "scalar" && node.value !== null) {
    const head = Object.hasOwn(VALUE_KEYS, key) ? "value" : "from";
    entries.push({ key: head, keySpan: node, value: node });
  }
  return { kind: "mapping", entries, ...span };
}

/** The node and all below it with the source that their places belong to. */
function owned(node: Node, source: Source): Node {
  if (node.kind === "scalar") return { ...node, source };
  if (node.kind === "list") {
    return { ...node, source, items: node.items.map((item) => owned(item, source)) };
  }
  const entries = node.entries.map(({ key, keySpan, value }) => ({
    key,
    keySpan: { ...keySpan, source },
    value: owned(value, source),
  }));
  return { ...node, source, entries };
}
