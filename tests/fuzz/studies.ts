import fc, { type Arbitrary } from "fast-check";
import { shrinkCrossbars } from "./crossbar-size.ts";
import { crossbars } from "./crossbars.ts";
import { cutDemo, damagedDemo, nudgedDemo } from "./damage.ts";
import { type Schema, SchemaValues } from "./from-schema.ts";
import { type Case, type Material, written } from "./material.ts";
import { soundDesign, soundStudy } from "./sound.ts";
import { switches } from "./switches.ts";

const SECTIONS = ["claims", "sweep", "organise", "uncertainty", "standby"];

/** What may stand at the top of a study besides its designs and one section. */
const TOP = ["temperature", "coverage", "seed", "catalogue", "question", "about"];

/** In place of the search for the largest tile, which is a long computation by design. */
const TILE = "tile: {rows: 64, columns: 64}";

/** Studies that hang together, demos a little and much off, studies by the schema, files of the other commands, bytes. */
export function cases(given: Material): Arbitrary<Case> {
  const demos = given.demos.map((demo) => demo.replaceAll("tile: auto", TILE));
  const material = { ...given, demos };
  const sound = soundStudy(material).map(
    (study): Case => ({ kind: "study", how: "sound", text: written(study) }),
  );
  return fc.oneof(
    { weight: 18, arbitrary: sound },
    { weight: 10, arbitrary: nudgedDemo(material) },
    { weight: 5, arbitrary: damagedDemo(material) },
    { weight: 5, arbitrary: bySchema(material) },
    { weight: 5, arbitrary: crossbars },
    { weight: 1, arbitrary: switches },
    { weight: 2, arbitrary: cutDemo(material) },
    { weight: 2, arbitrary: bytes },
  );
}

/** Whole studies: what must be there is there and mostly right, the rest by the schema. */
function bySchema(material: Material): Arbitrary<Case> {
  const { schema, names } = material;
  const values = new SchemaValues(schema, (reference) => names[reference] ?? []);
  const top = schema.properties!;
  const fields = (top.designs!.additionalProperties as Schema).properties!;
  const design = fc
    .tuple(
      soundDesign(material),
      fc
        .shuffledSubarray(Object.keys(fields), { maxLength: 3 })
        .chain((keys) =>
          fc.record(Object.fromEntries(keys.map((key) => [key, values.of(fields[key]!)]))),
        ),
    )
    .map(([base, extra]) => bounded({ ...base, ...extra }));
  const some = <T>(keys: readonly string[], freq: number, map: (part: object) => T) =>
    fc.option(
      fc
        .constantFrom(...keys)
        .chain((key) => values.of(top[key]!).map((value) => map({ [key]: value }))),
      { freq, nil: {} },
    );
  return fc
    .record({
      technology: fc.constantFrom(...names.technology!),
      designs: fc.dictionary(fc.constantFrom("a", "b-1", "ü"), design, { minKeys: 1, maxKeys: 2 }),
      extra: some(TOP, 1, (part) => part),
      section: some(SECTIONS, 2, (part) => part),
    })
    .map(({ extra, section, ...study }) => ({
      kind: "study",
      how: "by the schema",
      text: written({ title: "fuzz", ...study, ...extra, samples: 16, ...section }),
    }));
}

/** The search for the largest tile only where it is short, and crossbars that are solved soon. */
function bounded(design: Record<string, unknown>): Record<string, unknown> {
  shrinkCrossbars({ designs: { design } });
  return JSON.stringify(design.tile ?? "").includes("auto")
    ? { ...design, capacity: "2048 bit" }
    : design;
}

const bytes: Arbitrary<Case> = fc
  .tuple(
    fc.constantFrom("study", "study", "crossbar", "switch"),
    fc.oneof(
      fc.uint8Array({ maxLength: 200 }).map((data) => new TextDecoder().decode(data)),
      fc.string({ unit: "binary", maxLength: 200 }),
      fc.json(),
    ),
  )
  .map(([kind, text]) => ({ kind, how: "bytes", text }));
