// All data of small arrays, and searches by single flips in larger ones, against the table of worst
// patterns. The networks are solved exactly.
import { expect, test } from "vitest";
import { kindsOfBits, kindsOfPattern, type Tile } from "../../../src/estimate/crossbar/tile.ts";
import { SCHEMES, type Scheme } from "../../../src/models/crossbar/contract.ts";
import { QUESTIONS, type Question, WORST } from "../../../src/models/crossbar/patterns.ts";
import { RandomStream } from "../../../src/numerics/sampling/random.ts";
import { allowed, badness, JUNCTIONS, tileOf } from "./worst.ts";

type Junction = (typeof JUNCTIONS)[number];

function expectNoneWorse(
  kind: Junction,
  tile: Tile,
  scheme: Scheme,
  question: Question,
  searched: Iterable<Uint8Array>,
) {
  const table = kindsOfPattern(tile, WORST[scheme][question]);
  const stated = badness(kind, tile, scheme, question, table);
  let worst = 0;
  for (const data of searched) worst = Math.max(worst, badness(kind, tile, scheme, question, data));
  expect(worst / stated - 1, `${kind} ${scheme} ${question}`).toBeLessThan(
    allowed(scheme, question),
  );
  // The search has met the stated data too.
  expect(worst / stated - 1).toBeGreaterThan(-1e-9);
}

function* allData(tile: Tile): Iterable<Uint8Array> {
  const cells = tile.rows * tile.columns;
  for (let bits = 0; bits < 2 ** cells; bits++) {
    // The selected cell has no data of its own.
    if ((bits >> (tile.columns - 1)) & 1) continue;
    yield kindsOfBits(tile, bits);
  }
}

test.each(JUNCTIONS.flatMap((kind) => SCHEMES.map((scheme) => [kind, scheme] as const)))(
  "no data of a 3 x 3 array (%s, %s) are worse than the stated pattern",
  (kind, scheme) => {
    const tile = tileOf(kind, 3, 3, 300);
    for (const question of QUESTIONS) {
      expectNoneWorse(kind, tile, scheme, question, allData(tile));
    }
  },
  60000,
);

test.each(["grounded", "one-half"] as const)(
  "no data of a 3 x 4 array (%s) are worse than the stated pattern",
  (scheme) => {
    const tile = tileOf("none", 3, 4, 100);
    for (const question of ["read_on", "read_off", "delivery"] as const) {
      expectNoneWorse("none", tile, scheme, question, allData(tile));
    }
  },
  60000,
);

/** Flips one cell after another as long as that makes the data worse, from random data. */
function* climbed(
  kind: Junction,
  tile: Tile,
  scheme: Scheme,
  question: Question,
): Iterable<Uint8Array> {
  const cells = tile.rows * tile.columns;
  const stream = new RandomStream(1, `${scheme} ${question}`);
  const data = Uint8Array.from({ length: cells }, (_, k) => 1 + (stream.words(k)[0]! & 1));
  data[tile.columns - 1] = 0;
  let best = badness(kind, tile, scheme, question, data);
  for (let improved = true; improved; ) {
    improved = false;
    for (let k = 0; k < cells; k++) {
      if (k === tile.columns - 1) continue;
      data[k] = 3 - data[k]!;
      const now = badness(kind, tile, scheme, question, data);
      if (now > best * (1 + 1e-13)) {
        best = now;
        improved = true;
      } else data[k] = 3 - data[k]!;
    }
  }
  yield data;
}

/**
 * What single cells change beyond the three groups grows with the square of what the lines take,
 * which is a tenth here.
 */
const SECOND_ORDER = 2e-3;

test.each(SCHEMES.filter((scheme) => scheme !== "floating"))(
  "no flips lead a 6 x 6 array (%s) to data that are worse than the stated pattern by 0.2 percent",
  (scheme) => {
    const tile = tileOf("none", 6, 6, 100);
    for (const question of QUESTIONS) {
      const table = kindsOfPattern(tile, WORST[scheme][question]);
      const stated = badness("none", tile, scheme, question, table);
      for (const data of climbed("none", tile, scheme, question)) {
        const worst = badness("none", tile, scheme, question, data);
        expect(worst / stated - 1, `${scheme} ${question}`).toBeLessThan(SECOND_ORDER);
      }
    }
  },
  60000,
);

test("a pattern that differs in one group is seldom as bad: the table tells schemes apart", () => {
  // Selected row and column off is the easiest case for delivery with one-half bias.
  const tile = tileOf("none", 6, 6, 100);
  const easy = kindsOfPattern(tile, { row: false, column: false, rest: false });
  const hard = kindsOfPattern(tile, WORST["one-half"].delivery);
  const ratio =
    badness("none", tile, "one-half", "delivery", hard) /
    badness("none", tile, "one-half", "delivery", easy);
  expect(ratio).toBeGreaterThan(1.02);
});
