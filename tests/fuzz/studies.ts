import fc, { type Arbitrary } from "fast-check";
import { dump, load } from "js-yaml";
import { ODD, type Schema, SchemaValues } from "./from-schema.ts";

/** What the generated studies are made from. */
export interface Material {
  readonly schema: Schema;
  /** Names of the catalogue by kind, as the schema refers to them. */
  readonly names: Readonly<Record<string, readonly string[]>>;
  /** Texts of the demo studies. */
  readonly demos: readonly string[];
}

/** A text that may be a study, and how it was made. */
export interface Case {
  readonly how: string;
  readonly text: string;
}

const SECTIONS = ["claims", "sweep", "organise", "uncertainty", "standby"];

/** What may stand at the top of a study besides its designs and one section. */
const TOP = ["temperature", "coverage", "seed", "catalogue", "question", "about"];

/** In place of the search for the largest tile, which is a long computation by design. */
const TILE = "tile: {rows: 64, columns: 64}";

/** Studies by the schema, damaged demos, and bytes. */
export function cases(given: Material): Arbitrary<Case> {
  const demos = given.demos.map((demo) => demo.replaceAll("tile: auto", TILE));
  const material = { ...given, demos };
  return fc.oneof(
    { weight: 6, arbitrary: bySchema(material) },
    { weight: 4, arbitrary: damagedDemo(material) },
    { weight: 1, arbitrary: cutDemo(material) },
    { weight: 1, arbitrary: bytes },
  );
}

/** Whole studies: what must be there is there and mostly right, the rest by the schema. */
function bySchema({ schema, names }: Material): Arbitrary<Case> {
  const values = new SchemaValues(schema, (reference) => names[reference] ?? []);
  const top = schema.properties!;
  const fields = (top.designs!.additionalProperties as Schema).properties!;
  const design = fc
    .tuple(
      sound(names),
      fc
        .shuffledSubarray(Object.keys(fields), { maxLength: 3 })
        .chain((keys) =>
          fc.record(Object.fromEntries(keys.map((key) => [key, values.of(fields[key]!)]))),
        ),
    )
    .map(([base, extra]) => ({ ...base, ...extra }));
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
      how: "by the schema",
      text: written({ title: "fuzz", ...study, ...extra, samples: 16, ...section }),
    }));
}

/** A design that mostly works; its tile is named and small, since networks take the time that they need. */
function sound(names: Readonly<Record<string, readonly string[]>>): Arbitrary<object> {
  const power = (min: number, max: number) => fc.integer({ min, max }).map((n) => 2 ** n);
  const cell = fc.oneof(
    fc.constantFrom(...names.baseline!),
    fc
      .record({
        switch: fc.constantFrom(...names.switch!),
        selector: fc.constantFrom(...names.selector!),
        bits: fc.constantFrom(1, 1, 1, 2),
        form: fc.constantFrom("single", "single", "single", "differential", "complementary"),
      })
      .map(({ bits, form, ...rest }) => ({
        ...rest,
        ...(bits > 1 && { bits }),
        ...(form !== "single" && { form }),
      })),
  );
  return fc
    .record({
      cell,
      capacity: power(10, 33),
      word: power(3, 5),
      rows: power(2, 8),
      columns: power(5, 8),
    })
    .map(({ capacity, word, rows, columns, ...rest }) => ({
      ...rest,
      capacity: `${capacity} bit`,
      word: `${word} bit`,
      tile: { rows, columns },
    }));
}

/** One to four values of a demo replaced, moved, doubled, renamed or lost. */
function damagedDemo({ demos }: Material): Arbitrary<Case> {
  const damage = fc.record({
    what: fc.constantFrom("replace", "scale", "move", "rename", "lose"),
    at: fc.nat(),
    from: fc.nat(),
    odd: fc.constantFrom(...ODD),
    decades: fc.integer({ min: -12, max: 12 }),
  });
  return fc
    .tuple(fc.constantFrom(...demos), fc.array(damage, { minLength: 1, maxLength: 4 }))
    .map(([demo, damages]) => {
      const study = load(demo) as Record<string, unknown>;
      for (const one of damages) hit(study, one);
      return { how: "damaged demo", text: written({ ...study, samples: 16 }) };
    });
}

interface Damage {
  readonly what: string;
  readonly at: number;
  readonly from: number;
  readonly odd: unknown;
  readonly decades: number;
}

function hit(study: Record<string, unknown>, { what, at, from, odd, decades }: Damage): void {
  const slots = slotsOf(study);
  if (slots.length === 0) return;
  const slot = slots[at % slots.length]!;
  const other = slots[from % slots.length]!;
  const holder = slot.holder as Record<string, unknown>;
  if (what === "replace") holder[slot.key] = odd;
  if (what === "lose") delete holder[slot.key];
  if (what === "move") holder[slot.key] = structuredClone(other.holder[other.key]);
  if (what === "rename") {
    const value = holder[slot.key];
    delete holder[slot.key];
    Object.defineProperty(holder, other.key, {
      value,
      enumerable: true,
      configurable: true,
      writable: true,
    });
  }
  if (what === "scale") {
    holder[slot.key] = String(holder[slot.key]).replace(
      /^[-+]?\d+(?:\.\d+)?/,
      (number) => `${Number((Number(number) * 10 ** decades).toPrecision(4))}`,
    );
  }
}

interface Slot {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

function slotsOf(node: unknown): Slot[] {
  if (typeof node !== "object" || node === null) return [];
  const holder = node as Record<string, unknown>;
  return Object.keys(holder).flatMap((key) => [{ holder, key }, ...slotsOf(holder[key])]);
}

/** Characters of a demo replaced, lines lost and doubled. */
function cutDemo({ demos }: Material): Arbitrary<Case> {
  const cut = fc.tuple(
    fc.nat(),
    fc.nat(20),
    fc.oneof(
      fc.constantFrom("{", "}", "[", ":", "\t", "&a ", "*a", "!!js/function ", "\n", "<<: *a", "'"),
      fc.constantFrom("__proto__", "1e999", "-", "µ", "\ud800", "\u0007", "\u202e", "0"),
      fc.string({ maxLength: 8, unit: "binary" }),
    ),
  );
  return fc
    .tuple(fc.constantFrom(...demos), fc.array(cut, { minLength: 1, maxLength: 5 }))
    .map(([demo, cuts]) => ({
      how: "cut demo",
      text: cuts.reduce((text, [at, length, put]) => {
        const from = at % (text.length + 1);
        return text.slice(0, from) + put + text.slice(from + length);
      }, demo),
    }));
}

const bytes: Arbitrary<Case> = fc
  .oneof(
    fc.uint8Array({ maxLength: 200 }).map((data) => new TextDecoder().decode(data)),
    fc.string({ unit: "binary", maxLength: 200 }),
    fc.json(),
  )
  .map((text) => ({ how: "bytes", text }));

/** As YAML; what YAML can't write becomes JSON, which is YAML too. */
function written(study: object): string {
  try {
    return dump(study, { noRefs: true });
  } catch {
    return JSON.stringify(study);
  }
}
