import { formulaLatex, latexName } from "../../../formulas/latex.ts";
import { parseFormula } from "../../../formulas/parse.ts";
import { formulaText } from "../../../formulas/print.ts";
import type { ExtraFormula } from "../../../formulas/program.ts";
import type {
  FormulaDefinition,
  InputDefinition,
  Procedure,
  Sheet,
} from "../../../formulas/sheet.ts";
import { CONSTANTS } from "../../../quantities/constants.ts";
import type { Block } from "../../document/document.ts";
import { heading, paragraph, text } from "../../document/make.ts";

/** A sheet or procedure with the file in which it stands. */
export interface PlacedModel {
  readonly model: Sheet | Procedure;
  /** Path within the project. */
  readonly file: string;
}

/** All models of one name: a sheet that depends on the structure of a design has several forms. */
export type Forms = readonly PlacedModel[];

/** The models by name, in the order in which their names first appear. */
export function byName(models: readonly PlacedModel[]): readonly Forms[] {
  const groups = new Map<string, PlacedModel[]>();
  for (const one of models) {
    const group = groups.get(one.model.name);
    if (group === undefined) groups.set(one.model.name, [one]);
    else group.push(one);
  }
  return [...groups.values()];
}

/**
 * The page of a model: what it is, each formula, and what it reads.
 *
 * @param prefixes with which designs use it
 */
export function modelBlocks(forms: Forms, prefixes: readonly string[] = []): Block[] {
  const { model, file } = forms[0]!;
  const head = [
    heading(`${model.title}: ${model.name}`, 2),
    paragraph(model.about),
    paragraph(`Stands in ${file}.${used(prefixes)}`),
  ];
  return model.kind === "sheet"
    ? [...head, ...sheetBlocks(forms.map((one) => one.model as Sheet))]
    : [...head, ...procedureBlocks(model)];
}

function used(prefixes: readonly string[]): string {
  const named = prefixes.filter((prefix) => prefix !== "");
  return named.length === 0 ? "" : ` Used with the prefixes ${named.join(", ")}.`;
}

function sheetBlocks(sheets: readonly Sheet[]): Block[] {
  const names = [...new Set(sheets.flatMap(({ formulas }) => Object.keys(formulas)))];
  const inputs: Sheet["inputs"] = Object.assign({}, ...sheets.map((one) => one.inputs));
  const defined: Sheet["formulas"] = Object.assign({}, ...sheets.map((one) => one.formulas));
  const told: Sheet["inputs"] = { ...inputs, ...defined };
  const symbols = new Map(
    Object.entries<{ readonly symbol?: string }>({ ...CONSTANTS, ...told }).flatMap(
      ([name, { symbol }]) => (symbol === undefined ? [] : [[name, symbol] as const]),
    ),
  );
  return [
    ...names.flatMap((name) => {
      const found = sheets.flatMap(({ formulas }) => formulas[name] ?? []);
      return formulaBlocks(name, distinct(found), symbols, found.length < sheets.length);
    }),
    ...readsTable(inputs),
  ];
}

function distinct(formulas: readonly FormulaDefinition[]): readonly FormulaDefinition[] {
  return [...new Map(formulas.map((one) => [one.formula, one])).values()];
}

/** One quantity: its formula, or one for each structure that has its own. */
function formulaBlocks(
  name: string,
  formulas: readonly FormulaDefinition[],
  symbols: ReadonlyMap<string, string>,
  sometimes: boolean,
): Block[] {
  const one = formulas[0]!;
  return [
    ...formulas.map(({ formula }): Block => {
      const tree = parseFormula(formula);
      const left = symbols.get(name) ?? latexName(name);
      return {
        kind: "formula",
        text: `${name} = ${formulaText(tree)}`,
        latex: `${left} = ${formulaLatex(tree, symbols)}`,
      };
    }),
    paragraph(
      [
        `[${one.unit}] ${one.meaning}`,
        `source: ${[...new Set(formulas.map(({ source }) => source))].join(", ")}`,
        ...new Set(formulas.flatMap(({ note }) => note ?? [])),
        ...(formulas.length > 1 ? ["which one holds depends on the structure"] : []),
        ...(sometimes ? ["not in every structure"] : []),
      ].join("; "),
    ),
  ];
}

function readsTable(inputs: Readonly<Record<string, InputDefinition>>): Block[] {
  const rows = Object.entries(inputs).map(([name, { unit, meaning, symbol }]) => [
    text(name),
    symbol === undefined ? text("") : { kind: "text" as const, text: symbol, latex: symbol },
    text(unit),
    text(meaning),
  ]);
  if (rows.length === 0) return [];
  return [
    {
      kind: "table",
      name: "reads",
      caption: "Reads",
      columns: [
        { name: "quantity", title: "quantity" },
        { name: "symbol", title: "symbol" },
        { name: "unit", title: "unit" },
        { name: "meaning", title: "meaning" },
      ],
      rows,
    },
  ];
}

function procedureBlocks({ inputs, outputs, source }: Procedure): Block[] {
  const list = Object.entries(outputs).map(
    ([name, { unit, meaning }]) => `${name} [${unit}]: ${meaning}`,
  );
  return [
    paragraph(`No closed formula: a procedure; source: ${source}. It computes`),
    { kind: "list", items: list },
    ...readsTable(inputs),
  ];
}

/** Formulas that stand in no sheet, because the structure of a design makes them. */
export function compositionBlocks(extra: readonly ExtraFormula[]): Block[] {
  const names = [...new Set(extra.map(({ name }) => name))];
  return names.flatMap((name) => {
    const forms = extra.filter((one) => one.name === name);
    const texts = forms.flatMap(({ formula, ...rest }) =>
      typeof formula === "string" ? [{ ...rest, formula }] : [],
    );
    const { unit, meaning, source } = forms[0]!;
    if (texts.length > 0) return formulaBlocks(name, distinct(texts), new Map(), false);
    return [
      paragraph(
        `${name} [${unit}] ${meaning}; source: ${source}; the sum over what the design has`,
      ),
    ];
  });
}
