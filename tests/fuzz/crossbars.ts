import fc, { type Arbitrary } from "fast-check";
import { damaged } from "./damage.ts";
import { type Case, written } from "./material.ts";

/** Cases of `tenfold solve`: every law, pattern and side, wires of nothing up to more than any junction. */

/** Log-uniform, three digits. */
const spread = (least: number, most: number) =>
  fc
    .double({ min: least, max: most, noNaN: true })
    .map((decades) => Number((10 ** decades).toPrecision(3)));
/** Resistances of switches, and in one of eight cases such as nobody builds. */
const resistance = fc.oneof(
  { weight: 7, arbitrary: spread(3, 9) },
  { weight: 1, arbitrary: spread(-30, 30) },
);
const wire = fc.oneof(
  { weight: 2, arbitrary: fc.constant(0) },
  { weight: 6, arbitrary: spread(-2, 3) },
  { weight: 1, arbitrary: spread(-30, 12) },
);
/** Up to what forms a switch: steep laws at tens of volts are a known limit of the solver, which says so with 3. */
const voltage = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(0, 0.2, 1, 1.5, -1, 3) },
  { weight: 1, arbitrary: fc.integer({ min: -5000, max: 5000 }).map((mV) => mV / 1000) },
  { weight: 1, arbitrary: fc.constantFrom(1e-12, 1e-200) },
);

const ohmic = fc.record({ law: fc.constant("ohmic"), resistance });
const sinh = fc.oneof(
  fc.record({ law: fc.constant("sinh"), resistance, scale_voltage: spread(-1.5, 0.5) }),
  fc.record({
    law: fc.constant("sinh"),
    read_voltage: spread(-1, 0.5),
    read_current: spread(-9, -3),
    nonlinearity: fc.double({ min: 2.01, max: 1e4, noNaN: true }),
  }),
);
const threshold = fc
  .record({
    law: fc.constant("threshold"),
    on_resistance: spread(2, 5),
    ratio: spread(0, 7),
    threshold_voltage: spread(-0.7, 0.3),
    width_voltage: spread(-2, -0.5),
  })
  .map(({ ratio, ...law }) => ({ ...law, off_resistance: law.on_resistance * ratio }));
const diode = fc
  .record({
    law: fc.constant("diode"),
    saturation_current: spread(-16, -8),
    emission_voltage: spread(-1.6, -0.7),
    leak_resistance: fc.option(spread(7, 12), { nil: undefined }),
  })
  .map(({ leak_resistance, ...law }) => ({ ...law, ...(leak_resistance && { leak_resistance }) }));

/** Mostly ohmic: networks of steep laws take many times as long. */
const law = fc.oneof(
  { weight: 3, arbitrary: ohmic as Arbitrary<object> },
  { weight: 2, arbitrary: sinh },
  { weight: 1, arbitrary: threshold },
);
const kind = fc
  .tuple(law, fc.option(fc.oneof(law, diode), { freq: 3, nil: undefined }))
  .map(([element, selector]) => (selector ? { ...element, selector } : element));

/** How many lines a case has; squares and single lines among them. */
const lines = fc.oneof(
  { weight: 1, arbitrary: fc.constant(1) },
  { weight: 6, arbitrary: fc.integer({ min: 2, max: 12 }) },
  { weight: 1, arbitrary: fc.integer({ min: 13, max: 32 }) },
);

/** A key of the files' form; as a literal key it would look like a promise's. */
const THEN = "then";

function patternOf(rows: number, columns: number): Arbitrary<object> {
  const name = fc.constantFrom("on", "off");
  const factor = fc.integer({ min: -3, max: 9 });
  const residue = { row_factor: factor, column_factor: factor };
  const matrix = <T>(of: Arbitrary<T>) =>
    fc.array(fc.array(of, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    });
  const exceptions = fc.array(
    fc.record({
      row: fc.integer({ min: 0, max: rows - 1 }),
      column: fc.integer({ min: 0, max: columns - 1 }),
      kind: name,
    }),
    { maxLength: 2 },
  );
  return fc.oneof(
    fc.record({ form: fc.constant("same"), kind: name, exceptions }),
    fc.record({ form: fc.constant("checkerboard"), even: name, odd: name }),
    fc
      .record({
        ...residue,
        modulus: fc.integer({ min: 1, max: 9 }),
        below: fc.integer({ min: 0, max: 9 }),
      })
      .map((one) => ({
        form: "modular",
        ...one,
        [THEN]: "on",
        else: "off",
      })),
    fc.record({ form: fc.constant("matrix"), kinds: matrix(name), exceptions }),
    fc.record({ form: fc.constant("values"), resistance: matrix(resistance) }),
    fc
      .record({
        ...residue,
        modulus: fc.integer({ min: 2, max: 9 }),
        low: resistance,
        high: resistance,
      })
      .map((one) => ({ form: "levels", ...one })),
  );
}

function sideOf(count: number): Arbitrary<object[]> {
  const some = fc.oneof(
    fc.constant("all" as const),
    fc.shuffledSubarray(
      Array.from({ length: count }, (_, k) => k),
      { minLength: 1 },
    ),
  );
  const driven = fc.record({
    lines: some,
    voltage,
    resistance: fc.oneof(fc.constantFrom(0, 0, 100), wire),
  });
  const floating = fc.record({ lines: some, floating: fc.constant(true) });
  return fc.array(
    fc.oneof(
      { weight: 4, arbitrary: driven as Arbitrary<object> },
      { weight: 1, arbitrary: floating },
    ),
    {
      minLength: 1,
      maxLength: 3,
    },
  );
}

const crossbar: Arbitrary<object> = fc.tuple(lines, lines).chain(([rows, columns]) => {
  const place = fc.record({
    row: fc.integer({ min: 0, max: rows - 1 }),
    column: fc.integer({ min: 0, max: columns - 1 }),
  });
  return fc
    .record({
      wires: fc.record({ row_resistance: wire, column_resistance: wire }),
      kinds: fc.record({ on: kind, off: kind }),
      pattern: patternOf(rows, columns),
      left: sideOf(rows),
      bottom: sideOf(columns),
      further: fc.option(fc.record({ right: sideOf(rows), top: sideOf(columns) }), {
        freq: 3,
        nil: {},
      }),
      selected: fc.option(place, { freq: 2, nil: undefined }),
      bias: fc.option(
        fc.constantFrom("floating", "grounded", "one-half", "one-third", "dot-product", "custom"),
        { freq: 2, nil: undefined },
      ),
      probes: fc.option(
        fc.array(
          place.map(({ row, column }) => [row, column]),
          { minLength: 1, maxLength: 3 },
        ),
        { freq: 4, nil: undefined },
      ),
    })
    .map(({ left, bottom, further, kinds, pattern, selected, bias, probes, wires }) => ({
      rows,
      columns,
      wires,
      ...("resistance" in pattern || "low" in pattern ? {} : { kinds }),
      pattern,
      terminals: { left, bottom, ...further },
      ...(selected && { selected }),
      ...(bias && { bias }),
      ...(probes && { probes }),
    }));
});

export const crossbars: Arbitrary<Case> = fc
  .oneof(
    { weight: 8, arbitrary: crossbar },
    {
      weight: 2,
      arbitrary: fc.array(crossbar, { minLength: 2, maxLength: 3 }).map((all) => ({ cases: all })),
    },
    { weight: 2, arbitrary: damaged(crossbar) },
  )
  .map((one) => ({ kind: "crossbar", how: "crossbar", text: written(one) }));
