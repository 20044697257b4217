import { describe, expect, test } from "vitest";
import { effort } from "../../src/models/periphery/effort.ts";
import { decoder } from "../../src/models/periphery/tile/decoder.ts";
import { evaluate } from "../models/periphery/fixture.ts";

/** A gate of static logic: all inputs high makes it low; one input makes it an inverter. */
interface Gate {
  readonly inputs: readonly number[];
  readonly output: number;
}

/** A decoder as a netlist, written from its description and not from the formulas. */
class Netlist {
  readonly gates: Gate[] = [];
  nets = 0;

  net(): number {
    return this.nets++;
  }

  gate(inputs: readonly number[]): number {
    const output = this.net();
    this.gates.push({ inputs, output });
    return output;
  }

  /** A gate and an inverter behind it: high when all inputs are. */
  all(inputs: readonly number[]): number {
    return this.gate([this.gate(inputs)]);
  }

  /** A complementary gate has an n-type and a p-type transistor for each input. */
  get transistors(): number {
    return this.gates.reduce((sum, gate) => sum + 2 * gate.inputs.length, 0);
  }

  /** Values of all nets; gates stand in the order of signal flow. */
  simulate(values: readonly boolean[]): boolean[] {
    const nets = [...values];
    for (const { inputs, output } of this.gates) nets[output] = !inputs.every((i) => nets[i]);
    return nets;
  }
}

function groupsOf(bits: number, most: number): number[] {
  const sizes: number[] = [];
  const number = Math.max(1, Math.ceil(bits / most));
  for (let left = bits, i = number; i > 0; i--) {
    const size = Math.ceil(left / i);
    sizes.push(size);
    left -= size;
  }
  return sizes;
}

function build(bits: number, outputs: number, most: number) {
  const list = new Netlist();
  const address = Array.from({ length: bits }, () => list.net());
  const complement = address.map((net) => list.gate([net]));
  let first = 0;
  const groups = groupsOf(bits, most).map((size) => {
    const own = Array.from({ length: size }, (_, i) => first + i);
    first += size;
    return {
      own,
      wires: Array.from({ length: 2 ** size }, (_, code) =>
        list.all(own.map((bit, i) => ((code >> i) & 1 ? address[bit]! : complement[bit]!))),
      ),
    };
  });
  const rows = Array.from({ length: outputs }, (_, row) => {
    const wires = groups.map(({ own, wires }) => {
      const code = own.reduce((sum, bit, i) => sum + (((row >> bit) & 1) << i), 0);
      return wires[code]!;
    });
    return wires.length < 2 ? wires[0]! : list.all(wires);
  });
  return { list, rows };
}

const counted = (outputs: number, predecode_bits: number) =>
  evaluate([{ of: effort }, { of: decoder }], {
    decoder_outputs: outputs,
    decoder_span: 1e-4,
    predecode_bits,
  })["static_transistors"];

// Source: the definition of a decoder; gates of static logic as in textbooks.
describe("a decoder built gate by gate", () => {
  for (let bits = 1; bits <= 10; bits++) {
    test(`${bits} bits: has the counted transistors and raises exactly the addressed row`, () => {
      for (const most of [2, 3, 4, 5]) {
        const { list, rows } = build(bits, 2 ** bits, most);
        expect(counted(2 ** bits, most), `predecoders of ${most}`).toBe(list.transistors);
        for (let address = 0; address < 2 ** bits; address++) {
          const nets = list.simulate(
            Array.from({ length: bits }, (_, i) => !!((address >> i) & 1)),
          );
          const up = rows.flatMap((net, row) => (nets[net] ? [row] : []));
          if (up.length !== 1 || up[0] !== address) expect(up).toEqual([address]);
        }
      }
    });
  }

  test("a number of rows that is no power of two has gates for its rows only", () => {
    for (const outputs of [5, 65, 260, 272, 516, 1000]) {
      const bits = Math.ceil(Math.log2(outputs));
      expect(counted(outputs, 3)).toBe(build(bits, outputs, 3).list.transistors);
    }
  });
});
