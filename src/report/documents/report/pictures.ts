import { compareDesigns } from "../../../studies/compare.ts";
import type { StudyEstimate } from "../../../studies/estimate.ts";
import { drawRatios, type RatioPoint } from "../../charts/ratios.ts";
import { drawStacks } from "../../charts/stacks.ts";
import type { Bars, Picture } from "../../document/document.ts";
import { shareText } from "../../renderers/figures.ts";
import { clip } from "../../renderers/plain.ts";
import { ratioText } from "./answer.ts";

/** Names longer than this are cut in pictures; tables have them whole. */
const LONGEST_NAME = 24;
const short = (text: string) => clip(text, LONGEST_NAME);

/** Ratios of all designs to the baseline, where there are any. */
export function ratioPicture(estimate: StudyEstimate): Picture[] {
  const { baseline, designs } = estimate;
  const points = compareDesigns(estimate).flatMap(({ label, figures }) =>
    figures.flatMap((figure, d): RatioPoint[] =>
      figure?.ratio === undefined
        ? []
        : [{ quantity: label, design: short(designs[d]!.title), ...figure.ratio }],
    ),
  );
  if (points.length === 0 || baseline === undefined) return [];
  const title = `Each design over ${short(baseline.title)}`;
  const alternative = points
    .map((one) => `${one.design}, ${one.quantity}: ${ratioText({ ...one, median: one.value })}`)
    .join("; ");
  return [
    {
      kind: "picture",
      name: "ratios",
      caption:
        `${title}, with ${Math.round(100 * estimate.study.coverage)} % intervals of ` +
        `the paired ratios. An open dot: the interval holds 1, so the parameters do not decide.`,
      alternative: clip(`${title}. ${alternative}`, LONGEST_ALTERNATIVE),
      svg: drawRatios({ title, description: alternative, axis: title, points }),
    },
  ];
}

const LONGEST_ALTERNATIVE = 2000;

/** The parts of a total as one bar per design; the table with all parts stands elsewhere. */
export function stackPicture(bars: Bars): Picture[] {
  if (bars.bars.length === 0) return [];
  const named: Bars = {
    ...bars,
    bars: bars.bars.map((one) => ({ ...one, label: short(one.label) })),
  };
  const title = bars.caption ?? bars.name;
  const alternative = named.bars.map((bar) => `${bar.label}: ${largest(bar.parts)}`).join("; ");
  return [
    {
      kind: "picture",
      name: bars.name,
      caption: `${title}, at the nominal parameters.`,
      alternative: `${title}. ${alternative}`,
      svg: drawStacks(named, title, alternative),
    },
  ];
}

/** The three largest parts in words. */
function largest(parts: Bars["bars"][number]["parts"]): string {
  const total = parts.reduce((sum, { value }) => sum + value, 0);
  if (!(total > 0)) return "nothing";
  return [...parts]
    .sort((a, b) => b.value - a.value)
    .slice(0, 3)
    .map(({ part, value }) => `${part} ${shareText(value / total)}`)
    .join(", ");
}
