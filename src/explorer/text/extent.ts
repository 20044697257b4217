/** Where the text of a node ends: the reader keeps where each begins. */

import type { MappingNode, Node } from "../../schema/yaml/tree.ts";

/** Whether a mapping is written in braces. */
export function isFlow(text: string, node: Node): boolean {
  return node.kind !== "scalar" && "{[".includes(text[node.start] ?? "");
}

/** The offset behind the last character of a node; behind its line break for text in block form. */
export function endOf(text: string, node: Node): number {
  if (node.kind === "scalar") return node.end;
  if (isFlow(text, node)) return closingOf(text, node.start) + 1;
  const last = node.kind === "list" ? node.items.at(-1) : lastOf(node);
  return last === undefined ? node.end : endOf(text, last);
}

function lastOf(node: MappingNode): Node | undefined {
  return node.entries.at(-1)?.value;
}

/** The bracket that closes the one at `open`; quotes and comments hold no brackets. */
function closingOf(text: string, open: number): number {
  let depth = 0;
  let i = open;
  while (i < text.length) {
    const letter = text[i]!;
    if (letter === '"' || (letter === "'" && /[\s,:{[]/.test(text[i - 1] ?? " "))) {
      i = quoteEnd(text, i);
    } else if (letter === "#" && /\s/.test(text[i - 1] ?? " ")) {
      i = lineEnd(text, i);
    } else {
      if (letter === "{" || letter === "[") depth += 1;
      if (letter === "}" || letter === "]") depth -= 1;
      if (depth === 0) return i;
    }
    i += 1;
  }
  return text.length - 1;
}

function quoteEnd(text: string, start: number): number {
  const quote = text[start]!;
  for (let i = start + 1; i < text.length; i++) {
    if (quote === '"' && text[i] === "\\") i += 1;
    else if (text[i] === quote) {
      // A quote twice stands for itself.
      if (quote === "'" && text[i + 1] === "'") i += 1;
      else return i;
    }
  }
  return text.length;
}

function lineEnd(text: string, from: number): number {
  const at = text.indexOf("\n", from);
  return at < 0 ? text.length : at;
}
