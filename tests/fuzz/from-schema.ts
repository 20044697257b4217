import fc, { type Arbitrary } from "fast-check";

/** As much of JSON Schema as `tenfold schema` writes. */
export interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly pattern?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly examples?: readonly string[];
  readonly description?: string;
}

/** Values that no field expects, or only at its edge. */
export const ODD: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  -0,
  1e-320,
  1e308,
  9007199254740992,
  "",
  "auto",
  "NaN",
  ".inf",
  "1e999 V",
  "0 V",
  "-3 nm",
  "5 parsec",
  "__proto__",
  "constructor",
  "toString",
  "=1+1",
  "../../etc/passwd",
  "\u202e",
  [],
  {},
  { value: "1 V", low: "2 V", high: "0 V" },
  { from: "constructor" },
];

/** What to write for a field of a catalogue entry's name. */
export type NamesOf = (reference: string) => readonly string[];

/** Random values that the schema mostly allows; about one in two hundred is what it does not. */
export class SchemaValues {
  readonly #definitions: Readonly<Record<string, Schema>>;
  readonly #namesOf: NamesOf;

  constructor(root: Schema, namesOf: NamesOf) {
    this.#definitions = root.$defs ?? {};
    this.#namesOf = namesOf;
  }

  of(schema: Schema, depth = 0): Arbitrary<unknown> {
    const right = this.#right(schema, depth);
    return fc.oneof({ weight: 200, arbitrary: right }, { weight: 1, arbitrary: odd });
  }

  #right(schema: Schema, depth: number): Arbitrary<unknown> {
    if (schema.const !== undefined) return fc.constant(schema.const);
    if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
    if (schema.$ref !== undefined) return this.#referred(schema, depth);
    const choices = schema.anyOf ?? schema.oneOf;
    if (choices !== undefined) return this.#oneOf(choices, schema, depth);
    if (schema.properties !== undefined || typeof schema.additionalProperties === "object") {
      return this.#object(schema, depth);
    }
    if (schema.items !== undefined) {
      const items = schema.items;
      return lazily(() => fc.array(this.of(items, depth + 1), { minLength: 1, maxLength: 3 }));
    }
    return scalar(schema);
  }

  #referred(schema: Schema, depth: number): Arbitrary<unknown> {
    const name = schema.$ref!.split("/").at(-1)!;
    const names = this.#namesOf(name);
    const whole = { ...this.#definitions[name]!, ...described(schema) };
    const full = lazily(() => this.of(whole, depth + 1));
    if (names.length === 0) return full;
    const named = fc.constantFrom(...names);
    const based = fc
      .tuple(named, full)
      .map(([from, entry]) =>
        typeof entry === "object" && entry !== null && !Array.isArray(entry)
          ? { ...entry, from }
          : from,
      );
    return fc.oneof({ weight: 6, arbitrary: named }, { weight: 1, arbitrary: based });
  }

  #oneOf(choices: readonly Schema[], schema: Schema, depth: number): Arbitrary<unknown> {
    // A spread is worth a choice; whole objects of entries are rarer, since most of them are refused.
    return fc.oneof(
      ...choices.map((choice, i) => ({
        weight: i === 0 ? 3 : 1,
        arbitrary: lazily(() =>
          this.#right({ ...described(schema), ...choice }, depth + 1),
        ) as Arbitrary<unknown>,
      })),
    );
  }

  #object(schema: Schema, depth: number): Arbitrary<unknown> {
    const properties = Object.entries(schema.properties ?? {});
    const rest = schema.additionalProperties;
    if (properties.length === 0 && typeof rest === "object") {
      return lazily(() =>
        fc.dictionary(fc.constantFrom("a", "b-1", "ü", "c"), this.of(rest, depth + 1), {
          minKeys: 1,
          maxKeys: 2,
        }),
      );
    }
    const spread = properties.some(([key]) => key === "low") && depth > 0;
    if (spread && schema.properties?.distribution !== undefined) return spreadOf(schema);
    const required = new Set(schema.required ?? []);
    return lazily(() =>
      fc
        .shuffledSubarray(properties, {
          minLength: Math.min(1, properties.length),
          maxLength: Math.min(properties.length, depth === 0 ? 8 : 4),
        })
        .chain((chosen) => {
          const kept = new Map([...properties.filter(([key]) => required.has(key)), ...chosen]);
          return fc.record(
            Object.fromEntries([...kept].map(([key, field]) => [key, this.of(field, depth + 1)])),
          );
        }),
    );
  }
}

const odd = fc.constantFrom(...ODD);

function described({ description, examples }: Schema): Schema {
  return { ...(description && { description }), ...(examples && { examples }) };
}

function lazily<T>(make: () => Arbitrary<T>): Arbitrary<T> {
  let made: Arbitrary<T> | undefined;
  return fc.constant(undefined).chain(() => (made ??= make()));
}

const UNIT = /; in (\S+) or a multiple/;

/** A number near the field's example, sometimes far from it. */
function scalar({ type, examples, minimum, maximum, description, pattern }: Schema) {
  if (type === "integer" || type === "number") {
    const least = minimum ?? 0;
    const most = Math.min(maximum ?? 1024, 1e9);
    return fc.oneof(
      fc.integer({ min: Math.ceil(least), max: Math.max(Math.ceil(least), Math.floor(most)) }),
      fc.integer({ min: 0, max: 6 }).map((power) => Math.min(most, Math.max(least, 2 ** power))),
    );
  }
  if (type === "boolean") return fc.boolean();
  const example = examples?.[0];
  const quantity =
    example === undefined ? null : /^([-+]?[\d.]+(?:e[-+]?\d+)?)\s*(.*)$/i.exec(example);
  const unit = quantity?.[2] ?? UNIT.exec(description ?? "")?.[1];
  if (quantity !== null || unit !== undefined || pattern?.includes("eE")) {
    const middle = Number(quantity?.[1] ?? 1);
    return fc
      .tuple(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.constantFrom(0, 0.1, 0.3, 0.3, 1, 4, 12),
      )
      .map(([way, decades]) => {
        const value = middle * 10 ** (way * decades);
        return `${Number(value.toPrecision(3))}${unit ? ` ${unit}` : ""}`;
      });
  }
  return fc.oneof(
    fc.constantFrom(...(examples ?? ["text"])),
    fc.string({ maxLength: 12, unit: "grapheme" }),
  );
}

const DISTRIBUTIONS = ["normal", "lognormal", "rectangular", "triangular", "two-point"];

/** A value with a range around it, in the field's unit. */
function spreadOf(schema: Schema): Arbitrary<unknown> {
  return fc
    .tuple(
      scalar({ ...schema, type: "string", pattern: "eE" }),
      fc.double({ min: 0, max: 1.02, noNaN: true }),
      fc.double({ min: 0.98, max: 4, noNaN: true }),
      fc.option(fc.constantFrom(...DISTRIBUTIONS), { nil: undefined }),
    )
    .map(([value, down, up, distribution]) => {
      const [, number, unit] = /^(\S+)(.*)$/.exec(String(value)) ?? ["", "1", ""];
      const times = (factor: number) =>
        `${Number((Number(number) * factor).toPrecision(3))}${unit}`;
      return {
        value,
        low: times(down),
        high: times(up),
        ...(distribution && { distribution }),
      };
    });
}
