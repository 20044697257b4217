import { KIND, KINDS } from "../../catalogue/index.ts";
import { TenfoldError } from "../../errors/problem.ts";
import { resolveDesign } from "../../estimate/design.ts";
import type { ReadText } from "../../studies/definition.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import type { Path, WrittenRange } from "../text/edit.ts";
import { type Candidate, candidatesOf, isStated } from "./candidates.ts";
import { displayOf } from "./display.ts";
import type { Knob, Scale } from "./knob.ts";
import { organisationKnobs, studyKnobs } from "./organisation.ts";
import { waysTo } from "./paths.ts";
import { lastPlace, turned, valueAt, writtenValue } from "./scale.ts";

/** Sliders for uncertain parameters: as many as one looks through. */
const MOST = 8;
/** Candidates that are tried at most: the others carry next to nothing. */
const TRIED = 20;
/** Beyond this ratio of its ends a slider moves by ratios. */
const WIDE = 4;

/**
 * The sliders of a study: what all of it shares, what carries most of the uncertainty, how each design is organised.
 *
 * @param text the study
 * @param estimate of it, at least at the nominal parameters
 * @param read reads a changed text
 */
export function chooseKnobs(
  text: string,
  estimate: StudyEstimate,
  read: (text: string) => ReadText,
): readonly Knob[] {
  const names = estimate.designs.map(({ name }) => name);
  const shared = studyKnobs(text, estimate);
  const taken = new Set(shared.map(({ read: { parameter } }) => parameter));
  const chosen: Knob[] = [];
  for (const candidate of candidatesOf(estimate).slice(0, TRIED)) {
    if (chosen.length === MOST) break;
    if (taken.has(candidate.parameter.name) && isStated(candidate.parameter)) continue;
    const knob = waysTo(candidate, names)
      .map((paths) => knobFor(candidate, paths, estimate))
      .find((one) => works(one, candidate, text, estimate, read));
    if (knob !== undefined) chosen.push(knob);
  }
  return [...shared, ...chosen, ...organisationKnobs(estimate)];
}

function knobFor(candidate: Candidate, paths: readonly Path[], estimate: StudyEstimate): Knob {
  const { parameter, designs } = candidate;
  const scale = scaleOf(candidate);
  const { designs: all } = estimate;
  const titles = all.filter(({ name }) => designs.includes(name)).map(({ title }) => title);
  return {
    id: paths.map((path) => path.join("/")).join(" "),
    label: parameter.name.replaceAll("_", " "),
    detail: whose(titles, all.length),
    group: "uncertainty",
    scale,
    paths,
    ...(isStated(parameter) ? {} : { range: rangeOf(scale, candidate) }),
    read: { design: designs[0]!, parameter: parameter.name },
  };
}

/** In few words: a slider has little room. */
function whose(titles: readonly string[], all: number): string {
  if (titles.length === all) return "all designs";
  return titles.length > 2 ? `${titles.length} of ${all} designs` : titles.join(", ");
}

function rangeOf(scale: Scale, { from, to }: Candidate): WrittenRange {
  return { low: writtenValue(scale, from), high: writtenValue(scale, to) };
}

function scaleOf({ parameter, from, to }: Candidate): Scale {
  const { name, unit, value } = parameter;
  const show = KINDS.map((kind) => KIND[kind].fields[name]?.show).find((one) => one !== undefined);
  const shown = displayOf(unit, show, value);
  const kind = from > 0 && to > WIDE * from ? "logarithmic" : "linear";
  return { kind, from, to, ...shown };
}

/**
 * Whether the study can be read with the knob at both ends and between, and the value moves in the designs that it is
 * of, and in no other that reads one of that name.
 */
function works(
  knob: Knob,
  { parameter: { name: parameter, key }, designs: moved }: Candidate,
  text: string,
  { designs }: StudyEstimate,
  read: (text: string) => ReadText,
): boolean {
  const last = lastPlace(knob.scale);
  const others = designs
    .filter(({ model }) => model.parameters.some((p) => p.name === parameter && p.key !== key))
    .map(({ name }) => name);
  try {
    const before = valuesIn(read(text), others, parameter);
    return [0, Math.round(last / 2), last].every((place) => {
      const value = valueAt(knob.scale, place);
      const changed = read(turned(knob, text, value));
      const after = valuesIn(changed, others, parameter);
      return (
        valuesIn(changed, moved, parameter).every((found) => isNear(found, value)) &&
        after.every((found, i) => found === before[i])
      );
    });
  } catch (error) {
    if (error instanceof TenfoldError) return false;
    throw error;
  }
}

function valuesIn({ study, catalogue }: ReadText, names: readonly string[], parameter: string) {
  return names.map(
    (name) => resolveDesign(study, name, catalogue).parameters.get(parameter)?.value,
  );
}

/** As near as three digits are. */
function isNear(found: number | undefined, wanted: number): boolean {
  return found !== undefined && Math.abs(found - wanted) <= 0.006 * Math.abs(wanted);
}
