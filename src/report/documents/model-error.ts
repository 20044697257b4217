import { type ErrorSource, errorSources, MODELLED } from "../../studies/error-sources.ts";
import type { Block, Cell } from "../document/document.ts";
import { note, quantity, ratio, text } from "../document/make.ts";

/** What the model intervals of a study rest on, and for which quantities there is none. */
export function modelErrorBlocks(
  estimate: Parameters<typeof errorSources>[0] & { readonly baseline?: unknown },
  names?: readonly string[],
): Block[] {
  const { sources, without, given } = errorSources(estimate, names);
  const percent = Math.round(100 * estimate.study.coverage);
  return [
    ...(sources.length === 0
      ? []
      : [
          sourceTable(sources, percent),
          note("note", readingOf(sources)),
          ...(estimate.baseline === undefined ? [] : [note("note", RATIOS)]),
        ]),
    ...(without.length === 0
      ? []
      : [
          note(
            "note",
            "No model error is stated where fewer than three published chips give a quantity or their " +
              `ratios lie decades apart: ${listed(without.map(labelOf))}.`,
          ),
        ]),
    ...(given.length === 0
      ? []
      : [
          note(
            "note",
            `The cell area of ${listed(given)} is given by process or paper, not predicted: ` +
              "it has no model error of its own.",
          ),
        ]),
  ];
}

function sourceTable(sources: readonly ErrorSource[], percent: number): Block {
  const right = (name: string, title: string) => ({ name, title, align: "right" as const });
  return {
    kind: "table",
    name: "model_error",
    caption: `Model error against published silicon, ${percent} %`,
    columns: [
      { name: "quantity", title: "quantity" },
      { name: "designs", title: "designs" },
      { name: "from", title: "chips of" },
      right("chips", "chips"),
      right("recalled", "from memory"),
      right("median", "median ratio"),
      right("factor", "factor"),
    ],
    rows: sources.map((one, i): Cell[] => [
      text(sources[i - 1]?.label === one.label ? "" : one.label),
      text(
        sources.filter(({ label }) => label === one.label).length === 1
          ? "all"
          : listed(one.designs),
      ),
      text(one.pooled ? "all kinds" : listed(one.kinds)),
      quantity("1", one.chips),
      quantity("1", one.recalled),
      ratio(one.median),
      ratio(one.factor),
    ]),
  };
}

function readingOf(sources: readonly ErrorSource[]): string {
  const pooled = sources.some((one) => one.pooled)
    ? " A kind with fewer than five chips takes the error of all kinds."
    : "";
  return (
    "Model error: a measurement would lie between value / (median × factor) and value × factor / " +
    "median. The bias that the chips show lies in it; no figure is corrected by it. What papers " +
    "leave unsaid is in it too, so that it stands beside the interval of the parameters and is " +
    `not added to it.${pooled} tenfold evidence shows the chips.`
  );
}

const RATIOS =
  "Ratios of two designs have model errors of their own, in CSV and JSON: what chips of one kind " +
  "have in common cancels where both are of that kind, and all else is taken as independent, an " +
  "upper bound, since designs of one study share process and defaults.";

const labelOf = (name: string): string => MODELLED.find((one) => one.name === name)?.label ?? name;

/** `a, b and c`. */
function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
