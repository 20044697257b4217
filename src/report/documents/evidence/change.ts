import { type Change, VERSION_DIGITS } from "../../../studies/evidence/history.ts";
import { COMPARED_QUANTITIES } from "../../../studies/evidence/plan.ts";
import type { Block, Cell } from "../../document/document.ts";
import { heading, paragraph, quantity, ratio, share, text } from "../../document/make.ts";
import { left, right } from "./words.ts";

/** What changed in the physics since an earlier version, and what it did to the ratios. */
export function changeBlocks(change: Change): Block[] {
  const { label, commit, changed, quantities, moved, gone, come } = change;
  return [
    heading(`Before and after: since ${label}`),
    paragraph(
      `Ratios of version ${commit.slice(0, VERSION_DIGITS)} of the models, which a script ran and kept, beside ` +
        "those of now, over the figures that both have.",
    ),
    ...(changed.length === 0 ? [] : [{ kind: "list", items: changed } as const]),
    {
      kind: "table",
      name: `change_${commit.slice(0, VERSION_DIGITS)}`,
      columns: [
        left("quantity", "quantity"),
        right("figures", "figures"),
        right("median_before", "median then"),
        right("median_now", "now"),
        right("within", "within"),
        right("share_before", "share then"),
        right("share_now", "now"),
      ],
      rows: quantities.map(({ quantity: name, figures, before, now }): Cell[] => [
        text(COMPARED_QUANTITIES[name].label),
        quantity("1", figures),
        ratio(before.median),
        ratio(now.median),
        ratio(now.within),
        share(before.share),
        share(now.share),
      ]),
    },
    {
      kind: "table",
      name: `moved_${commit.slice(0, VERSION_DIGITS)}`,
      caption: "Ratios that moved by a tenth or more",
      columns: [
        left("chip", "chip"),
        left("quantity", "quantity"),
        right("before", "before"),
        right("now", "now"),
      ],
      rows: moved.map(({ chip, quantity: name, before, now }): Cell[] => [
        text(chip),
        text(COMPARED_QUANTITIES[name].label),
        ratio(before),
        ratio(now),
      ]),
    },
    ...onlyOne("Compared then and no longer", gone),
    ...onlyOne("Compared since", come),
  ];
}

function onlyOne(what: string, figures: readonly string[]): Block[] {
  return figures.length === 0 ? [] : [paragraph(`${what}: ${figures.join(", ")}.`)];
}
