import { formatQuantity, formatRatio } from "../../../quantities/format.ts";
import { type ComparedFigure, compareDesigns } from "../../../studies/compare.ts";
import type { EstimatedDesign, StudyEstimate } from "../../../studies/estimate.ts";

/** Ratios that a first sentence gives, with the words around them. */
const PRAISED: readonly (readonly [name: string, before: string, after: string])[] = [
  ["macro_area", "takes", "of the area"],
  ["sleep_power", "sleeps at", "of the power"],
  ["read_latency", "reads in", "of the time"],
];

/** Ratios that somebody has to pay, from what is counted first. */
const PAID = [
  "macro_area",
  "read_latency",
  "write_energy_per_bit",
  "write_latency",
  "read_energy_per_bit",
  "standby_power",
];

/** Quantities that count alike in the choice of the design that the answer is about. */
const WEIGHED = [
  "macro_area",
  "read_latency",
  "write_latency",
  "write_energy_per_bit",
  "sleep_power",
];

/**
 * The design that an answer is about: of those with switches (of all others than the baseline where
 * none has), the one that works with the least product of area, latencies, write energy and sleep
 * power, which no choice of units changes and no single figure rules.
 */
export function answeringDesign({ designs, baseline }: StudyEstimate): EstimatedDesign | undefined {
  const working = designs.filter((one) => one.broken.length === 0 && one !== baseline);
  const hybrid = working.filter((one) => one.figures.get("switches")!.value > 0);
  const cost = ({ figures }: EstimatedDesign) =>
    WEIGHED.reduce((product, name) => product * (figures.get(name)?.value || 1), 1);
  return [...(hybrid.length > 0 ? hybrid : working)].sort((a, b) => cost(a) - cost(b))[0];
}

/** The answer in two sentences, made from the figures and their intervals. */
export function answerText(estimate: StudyEstimate): string {
  const { baseline, designs } = estimate;
  const chosen = answeringDesign(estimate);
  if (chosen === undefined) {
    return baseline === undefined || designs.length === 1
      ? "The study has nothing to compare. Add designs to it."
      : `No design but ${baseline.title} works at its nominal parameters. What keeps each ` +
          `of the others from working, and what may help, is said below.`;
  }
  if (baseline === undefined) return withoutBaseline(chosen);
  const rows = compareDesigns(estimate);
  const at = designs.indexOf(chosen);
  const figures = new Map(rows.map(({ name, figures: of }) => [name, of[at]]));
  const labels = new Map(rows.map(({ name, label }) => [name, label]));
  const ratio = (name: string) => figures.get(name)?.ratio;
  const praise = PRAISED.flatMap(([name, before, after]) => {
    const found = ratio(name);
    return found !== undefined && found.high < 1 ? [`${before} ${ratioText(found)} ${after}`] : [];
  });
  const saved = figures.get("transistors_saved_per_switch");
  if (saved !== undefined) {
    praise.push(`saves ${formatQuantity(saved, "1")} transistors per switch`);
  }
  const first = `Against ${baseline.title}, ${chosen.title} ${listed(praise)}.`;
  const paid = PAID.filter((name) => (ratio(name)?.low ?? 0) > 1);
  const open = rows
    .filter(({ name }) => holdsOne(ratio(name)))
    .map(({ name }) => labels.get(name)!);
  const price =
    paid.length === 0
      ? "It pays for that with neither energy nor time that these intervals could show"
      : `It pays with ${listed(paid.map((name) => `${ratioText(ratio(name)!)} of the ${labels.get(name)}`))}`;
  const undecided =
    open.length === 0
      ? ""
      : `; whether it is better or worse in ${listed(open)}, these intervals do not decide`;
  return `${first} ${price}${undecided}.`;
}

function withoutBaseline(chosen: EstimatedDesign): string {
  const say = (name: string, unit: string) => formatQuantity(chosen.figures.get(name)!, unit);
  return (
    `${chosen.title} takes ${say("macro_area", "m^2")}, reads in ${say("read_latency", "s")} and ` +
    `writes in ${say("write_latency", "s")}. The study names no baseline, so nothing is said of what it saves.`
  );
}

/** A ratio with its interval: `× 0.40 (0.27 – 1.2)`. */
export function ratioText({ value, low, high }: NonNullable<ComparedFigure["ratio"]>): string {
  const [from, to] = [low, high].map((x) => formatRatio(x).replace(/^× /, ""));
  return `${formatRatio(value)} (${from} – ${to})`;
}

function holdsOne(ratio: ComparedFigure["ratio"]): boolean {
  return ratio !== undefined && ratio.low <= 1 && ratio.high >= 1;
}

/** `a, b and c`. */
function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
