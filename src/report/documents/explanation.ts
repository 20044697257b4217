import type { Derivation } from "../../formulas/derive.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { Block, Document, Pair } from "../document/document.ts";
import { indented, paragraph, quantity, text } from "../document/make.ts";

/** A derivation with the parameters that it may end at. */
export interface Explained {
  readonly design: string;
  readonly derivation: Derivation;
  readonly model: { readonly parameters: readonly Parameter[] };
}

/** A derivation as a page of a notebook: formula, numbers, result, then each symbol one step further in. */
export function explanationDocument({ design, derivation, model }: Explained): Document {
  const parameters = new Map(model.parameters.map((one) => [one.name, one]));
  return {
    title: `${derivation.name} of ${design}`,
    subtitle: derivation.meaning,
    blocks: derivationBlocks(derivation, parameters),
  };
}

function derivationBlocks(one: Derivation, parameters: ReadonlyMap<string, Parameter>): Block[] {
  const { formula, procedure } = one;
  const result = quantity(one.unit, one.value);
  if (formula) {
    return [
      {
        kind: "formula",
        text: `${one.name} = ${formula.text}`,
        latex: `${one.symbol} = ${formula.latex}`,
        numbers: formula.numbers,
        result,
      },
      ...remark(one),
      ...children(one, parameters),
    ];
  }
  if (procedure) {
    return [
      paragraph(`${one.name}: computed by ${procedure.title}. ${procedure.about}`),
      {
        kind: "pairs",
        pairs: [...procedure.inputs, ...procedure.outputs].map(({ name, unit, value }) => ({
          key: name,
          value: quantity(unit, value),
        })),
      },
      ...children(one, parameters),
    ];
  }
  return [{ kind: "pairs", pairs: [leaf(one, parameters)] }];
}

function remark({ meaning, source, note, shortened }: Derivation): Block[] {
  const told = [
    source === undefined ? meaning : `${meaning} [${source}]`,
    ...(note === undefined ? [] : [note]),
    ...(shortened === "repeated" ? ["derived above"] : []),
    ...(shortened === "cut" ? ["more with a greater --depth"] : []),
  ];
  return [paragraph(told.join("; "))];
}

/** Parameters stand together in one list, what is derived gets a step of its own. */
function children(one: Derivation, parameters: ReadonlyMap<string, Parameter>): Block[] {
  const leaves = one.children.filter(({ formula, procedure }) => !formula && !procedure);
  const steps = one.children.filter(({ formula, procedure }) => formula ?? procedure);
  const inner: Block[] = [
    ...(leaves.length === 0
      ? []
      : [{ kind: "pairs" as const, pairs: leaves.map((child) => leaf(child, parameters)) }]),
    ...steps.flatMap((child) => derivationBlocks(child, parameters)),
  ];
  return inner.length === 0 ? [] : [indented(...inner)];
}

function leaf(
  { name, unit, value, meaning, source }: Derivation,
  parameters: ReadonlyMap<string, Parameter>,
): Pair {
  const known = parameters.get(name);
  const spread = known !== undefined && known.high > known.low;
  const figure = spread ? { value, low: known.low, high: known.high } : value;
  const from = [meaning, source, known?.basis].filter((one) => one !== undefined && one !== "");
  return {
    key: name,
    value: unit === "" ? text(String(value)) : quantity(unit, figure),
    remark: from.join("; "),
  };
}
