// Which strings of a source file, and objects of nothing else, are words for people and no behaviour.

/** Keys of a definition, and of a problem, that hold words. */
const KEYS = new Set(["title", "about", "meaning", "note", "symbol", "source", "basis", "what", "why", "words"]);
/** Arguments of short definitions: meaning, source, note. */
const ARGUMENTS = { formula: [2, 3, 4], given: [2, 3, 4], reliabilitySheet: [1, 2], second: [0, 2] };

/** Places `line:column` of the strings of a file that are words, and of objects that hold words alone. @param babel the parser */
export function wordsOf(babel, content) {
  const tree = babel.parse(content, { sourceType: "module", plugins: ["typescript"] });
  const found = new Set();
  visit(tree.program, [], found);
  return found;
}

function visit(node, above, found) {
  if (node === null || typeof node !== "object") return;
  if (Array.isArray(node)) {
    for (const one of node) visit(one, above, found);
    return;
  }
  if (typeof node.type !== "string") return;
  if ((node.type === "StringLiteral" || node.type === "TemplateLiteral") && isWords(node, above)) {
    found.add(`${node.loc.start.line}:${node.loc.start.column}`);
  }
  if (node.type === "ObjectExpression" && node.properties.length > 0 && node.properties.every(holdsWords)) {
    found.add(`${node.loc.start.line}:${node.loc.start.column}`);
  }
  for (const [key, value] of Object.entries(node)) {
    if (key !== "loc" && value !== null && typeof value === "object") visit(value, [...above, node], found);
  }
}

function holdsWords({ type, key }) {
  return type === "ObjectProperty" && KEYS.has(key.name ?? key.value);
}

/** Climbs through sums and choices of strings to what holds them. */
function isWords(string, above) {
  let child = string;
  for (const holder of [...above].reverse()) {
    if (["BinaryExpression", "ConditionalExpression", "TemplateLiteral", "TSAsExpression"].includes(holder.type)) {
      child = holder;
      continue;
    }
    if (holder.type === "ObjectProperty") return KEYS.has(holder.key.name ?? holder.key.value);
    if (holder.type === "CallExpression") {
      return (ARGUMENTS[holder.callee.name] ?? []).includes(holder.arguments.indexOf(child));
    }
    if (holder.type === "ArrayExpression") return inRow(holder.elements, holder.elements.indexOf(child));
    return holder.type === "VariableDeclarator" && KEYS.has(String(holder.id.name).toLowerCase());
  }
  return false;
}

/** A default: name, unit, three numbers, source, basis, meaning. A known quantity: unit, meaning, symbol. */
function inRow(elements, index) {
  if (elements.length === 8) return index >= 5;
  const second = elements[1];
  return elements.length <= 3 && index >= 1 && second?.type === "StringLiteral" && second.value.includes(" ");
}
