import { CLOSED_BOUNDS } from "../../estimate/crossbar/bound.ts";
import { errorTable, GRID, gridCases, OUTPUT_CLASSES } from "../../estimate/crossbar/grid.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Document } from "../document/document.ts";
import { heading, paragraph, share, text } from "../document/make.ts";

const words = (names: readonly string[]) =>
  names.map((name) => name.replaceAll("_", " ")).join(", ");

const percent = (value: number) => `${Number((100 * value).toPrecision(3))} %`;

/** How far the closed forms of a crossbar are from its solve, by scheme and drop. */
export function closedFormsDocument(parse: Parser): Document {
  const rows = errorTable(gridCases(parse));
  return {
    title: "Closed forms of a crossbar against the solve of its network",
    blocks: [
      paragraph(
        "The far corner of a tile behind ladders of its row and column, against the whole network " +
          "solved to a Kirchhoff error of 1e-10. Largest relative errors by what the lines take of " +
          "the voltage to the far corner (the larger of read and write, by the closed forms), over " +
          `selectors ${GRID.selectors.join(", ").replaceAll("_", " ")}; ` +
          `${GRID.sizes.map(([m, n]) => `${m} × ${n}`).join(", ")} cells; ` +
          `${GRID.segments.join(", ")} Ω of wire between cells. Junctions are invented. Diodes ` +
          "with one-third bias and floating lines have no closed form that would do.",
      ),
      paragraph(
        "The estimate uses closed forms where the lines take no more than a bound, and the solve " +
          "beyond. Bounds, and errors of the far corner and of leaks and drops that tests hold up " +
          "to there: " +
          Object.entries(CLOSED_BOUNDS)
            .map(
              ([scheme, { upTo, far, leak }]) =>
                `${scheme} ${percent(upTo)}: ${percent(far)} and ${percent(leak)}`,
            )
            .join("; ") +
          ".",
      ),
      heading("Largest errors"),
      {
        kind: "table",
        name: "closed_form_errors",
        columns: [
          { name: "scheme", title: "scheme" },
          { name: "from", title: "lines take more than", align: "right" },
          { name: "up_to", title: "up to", align: "right" },
          { name: "cases", title: "cases", align: "right" },
          { name: "far", title: "far corner", align: "right" },
          { name: "leak", title: "leaks and drops", align: "right" },
        ],
        rows: rows.map(({ scheme, from, upTo, cases, far, leak }) => [
          text(scheme),
          share(from),
          Number.isFinite(upTo) ? share(upTo) : text("–"),
          text(String(cases)),
          share(far),
          share(leak),
        ]),
      },
      paragraph(`Far corner: ${words(OUTPUT_CLASSES.far)}.`),
      paragraph(`Leaks and drops: ${words(OUTPUT_CLASSES.leak)}.`),
    ],
  };
}
