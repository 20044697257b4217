import fc, { type Arbitrary } from "fast-check";
import { load } from "js-yaml";
import { shrinkCrossbars } from "./crossbar-size.ts";
import { ODD } from "./from-schema.ts";
import { type Case, gentle, isQuantity, type Material, written } from "./material.ts";

/** Sections of a demo are long computations each: a damaged one keeps at most one of them. */
const SECTIONS = ["claims", "sweep", "organise", "uncertainty", "standby"];

/** What it takes to meet a goal is a search for each design: one demo in so many keeps its goals. */
const KEPT_GOALS = 8;

function loseGoals(node: unknown): void {
  if (typeof node !== "object" || node === null) return;
  const holder = node as Record<string, unknown>;
  delete (holder.reliability as Record<string, unknown> | undefined)?.goal;
  for (const value of Object.values(holder)) loseGoals(value);
}

/** Demos with a few of their designs and at most one section. */
function partOfDemo({ demos }: Material): Arbitrary<Record<string, unknown>> {
  return fc
    .record({
      demo: fc.constantFrom(...demos),
      section: fc.constantFrom(...SECTIONS),
      keep: fc.array(fc.nat(), { minLength: 1, maxLength: 2 }),
    })
    .map(({ demo, section, keep }) => {
      const study = load(demo) as Record<string, unknown>;
      for (const one of SECTIONS) if (one !== section) delete study[one];
      const designs = Object.entries(study.designs as Record<string, unknown>);
      const kept = designs.filter(
        ([name], i) => name === study.baseline || keep.some((at) => at % designs.length === i),
      );
      if (keep[0]! % KEPT_GOALS !== 0) loseGoals(study);
      return { ...study, designs: Object.fromEntries(kept), samples: 16 };
    });
}

/** Values a little off, and names of the catalogue in place of others of their kind. */
export function nudgedDemo(material: Material): Arbitrary<Case> {
  const nudge = fc.record({
    at: fc.nat(),
    name: fc.nat(),
    decades: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
  });
  return fc
    .tuple(partOfDemo(material), fc.array(nudge, { minLength: 1, maxLength: 4 }))
    .map(([study, nudges]) => {
      for (const { at, name, decades } of nudges) {
        const slots = slotsOf(study).filter(({ holder, key }) =>
          movable(holder as Record<string, unknown>, key, material),
        );
        if (slots.length === 0) continue;
        const { holder, key } = slots[at % slots.length]!;
        move(holder as Record<string, unknown>, key, material, name, decades);
      }
      shrinkCrossbars(study);
      return { kind: "study", how: "nudged demo", text: written(study) };
    });
}

const BOUNDS = ["value", "low", "high"];
/** Counts have to fit each other, and ranks and shares end at one. */
const FIXED = [
  "kind",
  "rank",
  "share",
  "seed",
  "samples",
  "points",
  "from",
  "to",
  "step",
  "coverage",
];

function movable(holder: Record<string, unknown>, key: string, { names }: Material): boolean {
  const value = holder[key];
  if (FIXED.includes(key) || (BOUNDS.includes(key) && key !== "value")) return false;
  if (typeof value === "string" && !isQuantity(value)) return kindOf(value, names) !== undefined;
  return typeof value === "string" && isQuantity(value) && !key.startsWith("source");
}

const kindOf = (name: string, names: Material["names"]) =>
  Object.values(names).find((all) => all.includes(name));

function move(
  holder: Record<string, unknown>,
  key: string,
  { names }: Material,
  name: number,
  decades: number,
): void {
  const value = String(holder[key]);
  if (!isQuantity(value)) {
    const all = kindOf(value, names)!;
    holder[key] = all[name % all.length];
    return;
  }
  for (const one of key === "value" ? BOUNDS : [key]) {
    if (holder[one] !== undefined) holder[one] = gentle(String(holder[one]), decades);
  }
}

interface Damage {
  readonly what: string;
  readonly at: number;
  readonly from: number;
  readonly odd: unknown;
  readonly decades: number;
}

/** One to four values of a demo replaced, moved, doubled, renamed or lost. */
export function damagedDemo(material: Material): Arbitrary<Case> {
  const damage = fc.record({
    what: fc.constantFrom("replace", "scale", "scale", "move", "rename", "lose"),
    at: fc.nat(),
    from: fc.nat(),
    odd: fc.constantFrom(...ODD),
    decades: fc.integer({ min: -12, max: 12 }),
  });
  return fc
    .tuple(partOfDemo(material), fc.array(damage, { minLength: 1, maxLength: 3 }))
    .map(([study, damages]) => {
      for (const one of damages) hit(study, one);
      shrinkCrossbars(study);
      return { kind: "study", how: "damaged demo", text: written(study) };
    });
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
  if (what === "scale" && isQuantity(holder[slot.key])) {
    holder[slot.key] = gentle(String(holder[slot.key]), decades);
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

/** The same for a text of any kind. */
export function damaged(arbitrary: Arbitrary<object>): Arbitrary<object> {
  const damage = fc.record({
    what: fc.constantFrom("replace", "scale", "scale", "move", "rename", "lose"),
    at: fc.nat(),
    from: fc.nat(),
    odd: fc.constantFrom(...ODD),
    decades: fc.integer({ min: -12, max: 12 }),
  });
  return fc.tuple(arbitrary, damage).map(([whole, one]) => {
    hit(whole as Record<string, unknown>, one);
    return whole;
  });
}

const BEFORE_SECTIONS = /^(?=(?:claims|sweep|organise|uncertainty|standby):)/m;

/** Characters of a demo replaced, lines lost and doubled. */
export function cutDemo({ demos }: Material): Arbitrary<Case> {
  const cut = fc.tuple(
    fc.nat(),
    fc.nat(20),
    fc.oneof(
      fc.constantFrom("{", "}", "[", ":", "\t", "&a ", "*a", "!!js/function ", "\n", "<<: *a", "'"),
      fc.constantFrom("__proto__", "1e999", "-", "µ", "\ud800", "\u0007", "\u202e", "0"),
      fc.string({ maxLength: 8, unit: "binary" }),
    ),
  );
  // Most without the sections, which are a long computation each where the cut spares them.
  const designs = demos.map((demo) => demo.split(BEFORE_SECTIONS)[0]!);
  const whole = fc.oneof(
    { weight: 3, arbitrary: fc.constantFrom(...designs) },
    { weight: 1, arbitrary: fc.constantFrom(...demos) },
  );
  return fc.tuple(whole, fc.array(cut, { minLength: 1, maxLength: 5 })).map(([demo, cuts]) => ({
    kind: "study",
    how: "cut demo",
    text: cuts.reduce((text, [at, length, put]) => {
      const from = at % (text.length + 1);
      return text.slice(0, from) + put + text.slice(from + length);
    }, demo),
  }));
}
