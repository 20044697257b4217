import { formatQuantity } from "../../quantities/format.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";

/** The line under a study's title: what all designs share, and what the intervals are of. */
export function subtitleOf({ designs, study }: StudyEstimate): string {
  const shared = (of: (name: string) => string | undefined): string[] => {
    const texts = new Set(designs.map(({ name }) => of(name)));
    const only = [...texts][0];
    return texts.size === 1 && only !== undefined ? [only] : [];
  };
  const figure = (name: string, quantity: string) =>
    designs.find((one) => one.name === name)?.design.parameters.get(quantity)?.value;
  return [
    ...shared((name) => bits(figure(name, "capacity"))),
    ...shared((name) => `${figure(name, "word")}-bit words`),
    ...shared((name) => formatQuantity({ value: figure(name, "feature")! }, "m")).map(
      (text) => `F = ${text}`,
    ),
    ...shared((name) => celsius(figure(name, "temperature"))),
    `${Math.round(100 * study.coverage)} % intervals from parameters`,
  ].join(" · ");
}

const PREFIXES = ["", "Ki", "Mi", "Gi", "Ti"];

/** A number of bits with the largest binary prefix that leaves it whole. */
function bits(count: number | undefined): string | undefined {
  if (count === undefined) return undefined;
  let step = 0;
  let left = count;
  while (left % 1024 === 0 && step < PREFIXES.length - 1) {
    left /= 1024;
    step += 1;
  }
  return `${left} ${PREFIXES[step]}bit`;
}

function celsius(kelvin: number | undefined): string | undefined {
  return kelvin === undefined ? undefined : `${Number((kelvin - 273.15).toFixed(2))} °C`;
}
