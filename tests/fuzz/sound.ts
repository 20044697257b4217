import fc, { type Arbitrary } from "fast-check";
import { gentle, isSilicon, type Material } from "./material.ts";

/** Studies that hang together, so that most of them give figures: every section and key, with values near known ones. */

const power = (min: number, max: number) => fc.integer({ min, max }).map((n) => 2 ** n);
const often = <T>(arbitrary: Arbitrary<T>, chance = 6): Arbitrary<T | undefined> =>
  fc.option(arbitrary, { freq: chance, nil: undefined });
/** Present in one of so many. */
const rarely = <T>(arbitrary: Arbitrary<T>, outOf: number): Arbitrary<T | undefined> =>
  fc.oneof(
    { weight: outOf - 1, arbitrary: fc.constant(undefined) },
    { weight: 1, arbitrary: arbitrary as Arbitrary<T | undefined> },
  );

/** Cells of random-access memories among the baselines. */
const MEMORY = /^(?:sram-(?:6|8|10)t|dram|embedded-dram|gain|nor-flash|split-gate)/;
/** Half of the selectors are of these, whose cells stand in no crossbar. */
const IN_SILICON = ["transistor", "array-transistor", "array-diode"];

type Keys = Record<string, unknown>;

function present(keys: Keys): Keys {
  return Object.fromEntries(Object.entries(keys).filter(([, value]) => value !== undefined));
}

/** An entry of the catalogue by name, or with some of its kind's fields near what other entries say. */
function entry({ names, known }: Material, kind: string, own = 8): Arbitrary<unknown> {
  const fields = Object.entries(known[kind] ?? {});
  const name = fc.constantFrom(...names[kind]!);
  const changed = fc
    .tuple(
      name,
      fc
        .shuffledSubarray(fields, { minLength: 1, maxLength: 2 })
        .chain((some) =>
          fc.record(Object.fromEntries(some.map(([field, texts]) => [field, figure(texts)]))),
        ),
    )
    .map(([from, values]) => ({ from, ...values }));
  return fc.oneof({ weight: own, arbitrary: name }, { weight: 1, arbitrary: changed });
}

/** A value near one of those, alone or with a range. */
function figure(texts: readonly string[]): Arbitrary<unknown> {
  const near = fc
    .tuple(fc.constantFrom(...texts), fc.double({ min: -0.3, max: 0.3, noNaN: true }))
    .map(([text, decades]) => gentle(text, decades));
  const spread = near.map((value) => ({
    value,
    low: gentle(value, -0.1),
    high: gentle(value, 0.1),
  }));
  return fc.oneof({ weight: 3, arbitrary: near }, { weight: 1, arbitrary: spread });
}

function cellOf(material: Material): Arbitrary<{ cell: unknown; crossed: boolean }> {
  const { names } = material;
  const baseline = fc
    .constantFrom(...names.baseline!.filter((name) => MEMORY.test(name)))
    .map((cell) => ({ cell, crossed: false }));
  const hybrid = fc
    .record({
      switch: entry(material, "switch", 4),
      selector: fc.oneof(fc.constantFrom(...IN_SILICON), entry(material, "selector")),
      bits: rarely(fc.constantFrom(2, 2, 3), 8),
      form: rarely(fc.constantFrom("differential", "complementary"), 10),
    })
    .map((keys) => {
      return { cell: present(keys), crossed: !isSilicon(keys.selector) };
    });
  return fc.oneof({ weight: 2, arbitrary: baseline }, { weight: 5, arbitrary: hybrid });
}

/** What any design may say besides. */
function extras({ known }: Material): Arbitrary<Keys> {
  const overrides = Object.entries(known.override ?? {});
  const wire = fc.oneof(
    fc.constantFrom("local", "intermediate", "global"),
    fc.record({
      from: fc.constantFrom("local", "intermediate"),
      width: fc.constantFrom("80 nm", "120 nm"),
      resistivity: fc.constantFrom("4e-8 ohm m", "2.5e-8 ohm m"),
    }),
  );
  return fc
    .record({
      temperature: rarely(fc.constantFrom("-20 degC", "25 degC", "85 degC", "125 degC"), 5),
      error_correction: rarely(
        fc.constantFrom("none", "single", "single-double", { corrects: 2 }, { corrects: 3 }),
        4,
      ),
      spare_rows: rarely(fc.integer({ min: 0, max: 8 }), 6),
      spare_columns: rarely(fc.integer({ min: 0, max: 8 }), 6),
      banks: rarely(fc.constantFrom(1, 2, 4, "auto"), 6),
      die: rarely(fc.record({ pads: fc.constantFrom("auto", 16, 80) }), 10),
      periphery_beneath: rarely(fc.constantFrom("0 %", "30 %", "100 %"), 10),
      wires: rarely(fc.record({ rows: wire, columns: wire, routes: wire }), 8),
      sense: rarely(
        fc.record({
          offset: fc.constantFrom("5 mV", "20 mV"),
          sigmas: fc.constantFrom(3, 6),
          comparison: fc.constantFrom("successive", "parallel"),
        }),
        8,
      ),
      write: rarely(
        fc.record({
          current_limit: fc.constantFrom("1 mA", "20 mA"),
          bits_at_once: fc.constantFrom("auto", 8),
          verify_pulses: fc.constantFrom(1, 3),
        }),
        8,
      ),
      reliability: rarely(reliability, 4),
      overrides: rarely(
        fc
          .shuffledSubarray(overrides, { minLength: 1, maxLength: 3 })
          .chain((some) =>
            fc.record(Object.fromEntries(some.map(([name, texts]) => [name, figure(texts)]))),
          ),
        4,
      ),
    })
    .map(present);
}

const reliability: Arbitrary<Keys> = fc
  .record({
    mission_time: often(fc.constantFrom("1 day", "5 year", "20 year")),
    write_rate: often(fc.constantFrom("200 1/day", "1000 1/s")),
    goal: rarely(
      fc.record({ word_failure: fc.constantFrom(1e-6, 1e-12), yield: fc.constant("90 %") }),
      20,
    ),
    drift: rarely(fc.record({ on: fc.constantFrom(0, 0.005), off: fc.constantFrom(0.02, 0.1) }), 4),
    reference: rarely(
      fc.record({ kind: fc.constantFrom("fixed", "tracking"), offset: fc.constant("5 %") }),
      4,
    ),
    read_noise: rarely(fc.constantFrom(0.01, 0.05), 4),
    level_tolerance: rarely(fc.constantFrom(0.1, 0.3), 4),
    times: rarely(fc.constantFrom(["1 h", "30 day"], ["1 s"]), 4),
    scrub_interval: rarely(fc.constantFrom("1 h", "30 day"), 4),
    temperature_profile: rarely(
      fc.constant([
        { temperature: "5 degC", share: "25 %" },
        { temperature: "60 degC", share: "75 %" },
      ]),
      5,
    ),
    cell_fault: rarely(fc.constantFrom(0, 1e-9, 1e-4), 4),
    line_fault: rarely(fc.constantFrom(0, 1e-5), 4),
    defect_density: rarely(fc.constant("0.1 1/cm^2"), 4),
    rate_voltage: rarely(fc.constantFrom("0.05 V", "0.2 V"), 4),
    bit_flip_rate: rarely(fc.constant("1e-12 1/h"), 5),
    failure_rate_target: rarely(fc.constant("1e-8 1/h"), 5),
    life_spread: rarely(fc.constantFrom(0.1, 0.5), 5),
  })
  .map(present);

/** A design that mostly works; its tile is named and small, since networks take the time that they need. */
export function soundDesign(material: Material): Arbitrary<Keys> {
  return fc
    .record({
      made: cellOf(material),
      capacity: power(10, 24),
      word: power(3, 6),
      rows: power(3, 8),
      columns: power(5, 8),
      lines: rarely(fc.constantFrom("whole", "columns", "divided"), 5),
      share: rarely(fc.constantFrom(1, 2, 4, "auto"), 5),
      decks: rarely(fc.constantFrom(2, 4), 5),
      bias: rarely(
        fc.oneof(
          fc.constantFrom("grounded", "one-half", "one-third", "floating"),
          fc.record({
            read: fc.constantFrom("grounded", "one-half"),
            write: fc.constantFrom("one-half", "one-third"),
          }),
        ),
        3,
      ),
      searched: rarely(fc.constant(true), 40),
      extra: extras(material),
    })
    .map(
      ({
        made: { cell, crossed },
        rows,
        columns,
        lines,
        share,
        decks,
        bias,
        searched,
        ...rest
      }) => {
        const { capacity, word, extra } = rest;
        const most = crossed ? 16 : 256;
        const tile = present({
          rows: Math.min(rows, most),
          columns: Math.min(columns, most),
          lines,
          column_share: share,
          decks: crossed ? decks : undefined,
        });
        return present({
          cell,
          capacity: `${searched ? Math.min(capacity, 4096) : capacity} bit`,
          word: `${Math.min(word, Math.min(columns, most))} bit`,
          tile: searched ? "auto" : tile,
          bias: crossed ? bias : undefined,
          ...extra,
        });
      },
    );
}

const QUANTITIES = ["macro_area", "read_latency", "write_energy", "standby_power", "transistors"];

/** One section about the designs of these names; the first has a switch. */
function section(functions: readonly string[], first: string): Arbitrary<Keys> {
  const varied = fc.constantFrom<Keys>(
    { temperature: { from: "0 degC", to: "80 degC", points: 3 } },
    { rows: [16, 32], columns: [32, 64] },
    { on_resistance: { from: "2 kohm", to: "50 kohm", points: 3, spacing: "logarithmic" } },
    { banks: [1, 2] },
    { error_correction: ["none", "single"], word: ["16 bit", "32 bit"] },
    { [`designs.${first}.tile.rows`]: [16, 32] },
  );
  const claims = fc
    .record({
      function: fc.constantFrom(...functions),
      number: fc.constantFrom(1, 5, 10, "2.5"),
      comparison: rarely(fc.constantFrom("at least", "about", "at most"), 2),
      // All boundaries, the default, take as many times as long as one.
      boundary: fc.constantFrom("cell", "crossbar", "tile", "macro", "function", "area", undefined),
      capacity: rarely(
        power(8, 20).map((bits) => `${bits} bit`),
        3,
      ),
      holds_with: rarely(fc.constantFrom("90 %", "50 %"), 4),
      solve_for: rarely(fc.constantFrom(["current_limit"], ["capacity"], ["on_resistance"]), 8),
      count: rarely(
        fc.record({ dummies: fc.boolean(), spares: fc.boolean(), test: fc.boolean() }),
        4,
      ),
    })
    .map((claim) => ({ claims: { one: present({ subject: first, ...claim }) } }));
  const sweep = fc
    .record({
      vary: varied,
      quantities: rarely(fc.shuffledSubarray(QUANTITIES, { minLength: 1 }), 2),
      where: rarely(fc.constantFrom(["macro_area < 1 mm^2"], ["read_latency <= 100 ns"]), 4),
      samples: rarely(fc.constant(16), 3),
    })
    .map((keys) => ({ sweep: present(keys) }));
  const organise = fc
    .record({
      design: fc.constant(first),
      vary: varied,
      minimise: fc.shuffledSubarray(QUANTITIES, { minLength: 1, maxLength: 2 }),
      maximise: rarely(fc.constant(["array_efficiency"]), 4),
      where: rarely(fc.constant(["read_latency <= 1 us"]), 4),
      best: rarely(fc.integer({ min: 1, max: 8 }), 4),
    })
    .map((keys) => ({ organise: present(keys) }));
  const uncertainty = fc
    .record({
      quantities: fc.constantFrom(...QUANTITIES).map((name) => [name]),
      sampling: rarely(fc.constantFrom("low-discrepancy", "pseudo-random"), 2),
      interval: rarely(fc.constantFrom("symmetric", "shortest"), 2),
      scale: rarely(fc.constantFrom("linear", "logarithmic"), 2),
      digits: fc.constant(1),
      most_draws: fc.constant(2000),
      correlations: rarely(
        fc
          .constantFrom(-0.9, 0, 0.6)
          .map((rank) => [{ between: ["on_resistance", "off_resistance"], rank }]),
        2,
      ),
      targets: rarely(
        fc.constant([{ design: first, want: "read_latency <= 9 ns", confidence: "90 %" }]),
        4,
      ),
    })
    .map((keys) => ({ uncertainty: present(keys) }));
  const standby = fc
    .record({
      period: fc.constantFrom("10 min", "1 s", "1 day"),
      active_time: fc.constantFrom("2 s", "1 ms"),
      reads: rarely(fc.constantFrom(0, 100_000), 2),
      writes: rarely(fc.constantFrom(0, 20_000), 2),
      save_to: rarely(fc.constant(first), 3),
      saved: rarely(fc.constant("1 Kib"), 5),
      battery: rarely(
        fc.constant({ charge: "2.4 A h", voltage: "3 V", self_discharge: "1 %/year" }),
        3,
      ),
    })
    .map((keys) => ({ standby: present(keys) }));
  return fc.oneof(
    { weight: 3, arbitrary: claims },
    { weight: 4, arbitrary: sweep },
    { weight: 3, arbitrary: organise },
    { weight: 1, arbitrary: uncertainty },
    { weight: 4, arbitrary: standby },
  );
}

/** The study's own entries, and a design whose cell is made of them. */
function ownCatalogue(material: Material): Arbitrary<Keys> {
  const laid = (kind: string) => entry(material, kind, 0).filter((one) => typeof one === "object");
  return fc
    .record({
      technologies: fc.record({ own: laid("technology") }),
      switches: fc.record({ own: laid("switch") }),
      selectors: fc.record({ own: laid("selector") }),
      baselines: fc.record({ own: fc.constant({ from: "sram-6t" }) }),
    })
    .chain((all) => fc.subarray(Object.entries(all), { minLength: 1 }))
    .map((some) => Object.fromEntries(some));
}

/** Whole studies. */
export function soundStudy(material: Material): Arbitrary<Keys> {
  const design = soundDesign(material);
  return fc
    .record({
      technology: entry(material, "technology"),
      first: fc.constantFrom("a", "b-1", "ü", "1"),
      one: design,
      two: rarely(design, 3),
      baseline: fc.boolean(),
      catalogue: rarely(ownCatalogue(material), 6),
      coverage: rarely(fc.constantFrom("50 %", "99 %"), 8),
      seed: rarely(fc.integer({ min: 0, max: 1000 }), 8),
    })
    .chain(({ technology, first, one, two, baseline, catalogue, coverage, seed }) => {
      const { capacity, word } = one;
      const base = { cell: "sram-6t", capacity, word };
      const own = catalogue as Record<string, unknown> | undefined;
      const cell =
        own?.switches && typeof one.cell === "object" ? { ...one.cell, switch: "own" } : one.cell;
      const study = {
        title: "fuzz",
        technology: own?.technologies ? "own" : technology,
        ...(baseline && { baseline: "base" }),
        designs: {
          ...(baseline && { base }),
          [first]: { ...one, cell },
          ...(two && { second: two }),
        },
        ...present({ catalogue, coverage, seed }),
        samples: 16,
      };
      return rarely(section(material.functions, first), 2).map((more) => ({ ...study, ...more }));
    });
}
