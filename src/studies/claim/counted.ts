import type { Counting } from "../../estimate/functions/index.ts";

const WORDS: Readonly<Record<keyof Counting, string>> = {
  dummies: "dummy cells",
  spares: "spares",
  test: "test logic",
  error_correction: "error correction",
};

/** What a count has in it, in words. */
export function countedWords(counting: Counting): string {
  const names = (wanted: boolean) =>
    (Object.keys(WORDS) as (keyof Counting)[])
      .filter((key) => counting[key] === wanted)
      .map((key) => WORDS[key]);
  const [inside, outside] = [names(true), names(false)];
  return [
    ...(inside.length > 0 ? [`with ${inside.join(", ")} where the design has them`] : []),
    ...(outside.length > 0 ? [`without ${outside.join(", ")}`] : []),
  ].join("; ");
}
