/**
 * Circuits of functions built device by device, counted and simulated: no formula of the models.
 */

/** A tree of pass transistors from 2^inputs leaves to one output. */
export function treeNetlist(inputs: number) {
  let transistors = 0;
  const build = (level: number): ((address: number, leaf: number) => number | undefined) => {
    if (level === 0) return (_, leaf) => leaf;
    const low = build(level - 1);
    const high = build(level - 1);
    transistors += 2;
    return (address, leaf) => {
      const bit = (address >> (level - 1)) & 1;
      // Each of the two devices conducts when its gate is up: the bit, or its complement.
      const through = [
        ...(bit === 0 ? [low(address, leaf)] : []),
        ...(bit === 1 ? [high(address, leaf + 2 ** (level - 1))] : []),
      ];
      return through[0];
    };
  };
  const output = build(inputs);
  return { transistors, select: (address: number) => output(address, 0) };
}

type Node = (lines: readonly boolean[]) => { valid: boolean; bits: boolean[] };

/** A binary tree that finds the first line that is up. */
export function encoderNetlist(bits: number) {
  const counts = { orGates: 0, inverters: 0, multiplexers: 0 };
  const build = (level: number, from: number): Node => {
    if (level === 0) return (lines) => ({ valid: lines[from]!, bits: [] });
    const left = build(level - 1, from);
    const right = build(level - 1, from + 2 ** (level - 1));
    counts.orGates += 1;
    counts.inverters += 1;
    counts.multiplexers += level - 1;
    return (lines) => {
      const [l, r] = [left(lines), right(lines)];
      const second = !l.valid;
      const chosen = l.bits.map((bit, i) => (second ? r.bits[i]! : bit));
      return { valid: l.valid || r.valid, bits: [second, ...chosen] };
    };
  };
  const root = build(bits, 0);
  return {
    ...counts,
    encode(lines: readonly boolean[]) {
      const { valid, bits: found } = root(lines);
      if (!valid) return { valid };
      return { valid, address: found.reduce((sum, bit) => 2 * sum + (bit ? 1 : 0), 0) };
    },
  };
}
