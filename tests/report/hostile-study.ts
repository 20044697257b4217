import { PAYLOADS } from "./payloads.ts";

/** A text that is hostile to every format at once, for places of which there is one. */
export const ALL = Object.values(PAYLOADS)
  .filter((text) => text.length < 1000)
  .join(" ");

const LONGEST = 400;

/**
 * A study with a payload in every place that takes a text, as JSON, which YAML is. A design for each
 * payload: its title, the sources, notes and titles of its switch.
 */
export function hostileStudy(payloads: readonly string[], sections: object = {}): string {
  const designs = payloads.map((payload, i) => [
    `d${i}`,
    {
      title: payload.slice(0, LONGEST),
      cell: {
        switch: {
          from: `own-${i}`,
          on_resistance: {
            value: "10 kohm",
            low: "7 kohm",
            high: "14 kohm",
            source: payload,
            note: payload,
          },
        },
        selector: "transistor",
      },
    },
  ]);
  const switches = payloads.map((payload, i) => [
    `own-${i}`,
    {
      from: "oxide-bilayer",
      title: payload,
      about: payload,
      off_resistance: { value: "1 Mohm", source: payload, note: payload },
    },
  ]);
  return JSON.stringify({
    title: payloads[0],
    question: ALL,
    about: ALL,
    technology: "cmos-65",
    samples: 64,
    baseline: "d0",
    defaults: { capacity: "16 kib", word: "16 bit", tile: { rows: 128, columns: 128 } },
    designs: Object.fromEntries(designs),
    catalogue: { switches: Object.fromEntries(switches) },
    ...sections,
  });
}
