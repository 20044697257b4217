import { KIND, KINDS } from "../../../catalogue/index.ts";
import type { Parameter } from "../../../quantities/parameter.ts";
import type { StudyEstimate } from "../../../studies/estimate.ts";
import type { Table } from "../../document/document.ts";
import { text } from "../../document/make.ts";
import { parameterCell } from "../catalogue.ts";

interface Used {
  readonly parameter: Parameter;
  readonly designs: string[];
}

/** What all designs read, each value once with the designs that read it. */
function usedValues({ designs }: StudyEstimate): readonly Used[] {
  const found = new Map<string, Used>();
  for (const { title, model } of designs) {
    for (const parameter of model.parameters) {
      const key = `${parameter.name} ${parameter.key} ${parameter.value}`;
      const known = found.get(key);
      if (known === undefined) found.set(key, { parameter, designs: [title] });
      else known.designs.push(title);
    }
  }
  return [...found.values()];
}

/** Values that neither the study nor an entry of the catalogue gives: what a reviewer asks for first. */
export function assumedTable(estimate: StudyEstimate): Table {
  const assumed = usedValues(estimate).filter(({ parameter }) => isAssumed(parameter));
  return valuesTable("assumed", assumed, estimate);
}

/** All other values. */
export function givenTable(estimate: StudyEstimate): Table {
  const given = usedValues(estimate).filter(({ parameter }) => !isAssumed(parameter));
  return valuesTable("values", given, estimate);
}

function isAssumed({ basis, key }: Parameter): boolean {
  return basis === "default" || key.startsWith("default/");
}

function valuesTable(name: string, values: readonly Used[], { designs }: StudyEstimate): Table {
  return {
    kind: "table",
    name,
    columns: [
      { name: "parameter", title: "parameter" },
      { name: "value", title: "value", align: "left" },
      { name: "source", title: "source" },
      { name: "basis", title: "basis" },
      { name: "designs", title: "designs" },
    ],
    rows: values.map(({ parameter, designs: of }) => [
      text(parameter.name),
      parameterCell(parameter, shown(parameter.name)),
      text(parameter.source),
      text(parameter.basis),
      text(of.length === designs.length ? "all" : of.join(", ")),
    ]),
  };
}

/** The unit in which people read a value of that name. */
function shown(name: string): string | undefined {
  return KINDS.map((kind) => KIND[kind].fields[name]?.show).find((show) => show !== undefined);
}
