/** Graphs hold what is computed twice once, and simplify only what changes no bit. */
import { describe, expect, test } from "vitest";
import { INPUT, Nodes, NUMBER } from "../../src/formulas/nodes.ts";
import { OPERATIONS, type Operation } from "../../src/numerics/vectors/operations.ts";

function inputs(): { nodes: Nodes; x: number; y: number } {
  const nodes = new Nodes();
  return { nodes, x: nodes.node(INPUT), y: nodes.node(INPUT) };
}

const two = OPERATIONS.filter((name) =>
  [
    "add",
    "subtract",
    "multiply",
    "divide",
    "min",
    "max",
    "less",
    "atMost",
    "equal",
    "pow",
  ].includes(name),
);

describe("nodes", () => {
  test.each(two)(
    "%s of the same operands is one node, either way round where order is nothing",
    (name) => {
      const { nodes, x, y } = inputs();
      const made = nodes.operation(name, x, y);
      expect(nodes.operation(name, x, y)).toBe(made);
      const swapped = nodes.operation(name, y, x);
      const symmetric = ["add", "multiply", "min", "max", "equal"].includes(name);
      expect(swapped === made).toBe(symmetric);
      expect(nodes.kinds[made]).toBe(OPERATIONS.indexOf(name));
      expect([nodes.first[made], nodes.second[made], nodes.third[made]]).toEqual([x, y, -1]);
      expect(nodes.size).toBe(symmetric ? 3 : 4);
    },
  );

  test("of one operand stand once each", () => {
    const { nodes, x, y } = inputs();
    const root = nodes.operation("sqrt", x);
    expect(nodes.operation("sqrt", x)).toBe(root);
    expect(nodes.operation("sqrt", y)).not.toBe(root);
    expect(nodes.operation("exp", x)).not.toBe(root);
    expect([nodes.first[root], nodes.second[root], nodes.third[root]]).toEqual([x, -1, -1]);
  });

  test("of numbers alone are numbers, and equal numbers one node", () => {
    const { nodes } = inputs();
    const seven = nodes.operation("add", nodes.number(3), nodes.number(4));
    expect(seven).toBe(nodes.number(7));
    expect([nodes.kinds[seven], nodes.numbers[seven]]).toEqual([NUMBER, 7]);
    expect(nodes.operation("sqrt", nodes.number(49))).toBe(seven);
    expect(nodes.operation("negate", nodes.number(-7))).toBe(seven);
    expect(nodes.number(Number.NaN)).toBe(nodes.number(Number.NaN));
  });

  test("zeros of both signs are two numbers", () => {
    const { nodes } = inputs();
    const [zero, negative] = [nodes.number(0), nodes.number(-0)];
    expect(negative).not.toBe(zero);
    expect(nodes.number(-0)).toBe(negative);
    expect(nodes.number(0)).toBe(zero);
    expect(Object.is(nodes.numbers[negative], -0)).toBe(true);
    expect(Object.is(nodes.numbers[zero], 0)).toBe(true);
  });

  test("a factor, divisor or exponent of one, or zero taken away, leaves the operand", () => {
    const { nodes, x } = inputs();
    const one = nodes.number(1);
    for (const name of ["multiply", "divide", "pow"] as const) {
      expect(nodes.operation(name, x, one)).toBe(x);
    }
    expect(nodes.operation("multiply", one, x)).toBe(x);
    expect(nodes.operation("subtract", x, nodes.number(0))).toBe(x);
  });

  test("what would change the sign of a zero, or does something, is done", () => {
    const { nodes, x } = inputs();
    const done: [Operation, number, number][] = [
      // 0 + -0 is 0, and -0 - -0 is 0.
      ["add", x, nodes.number(0)],
      ["subtract", x, nodes.number(-0)],
      ["subtract", nodes.number(0), x],
      ["divide", nodes.number(1), x],
      ["pow", nodes.number(1), x],
      ["multiply", x, nodes.number(0)],
      ["multiply", x, nodes.number(-1)],
      ["multiply", nodes.number(2), x],
      ["add", x, nodes.number(1)],
      ["pow", x, nodes.number(0.5)],
      ["pow", x, nodes.number(4)],
      ["divide", x, nodes.number(3)],
      ["min", x, nodes.number(1)],
    ];
    for (const [name, a, b] of done) {
      const size = nodes.size;
      const made = nodes.operation(name, a, b);
      expect(made, name).toBe(size);
      expect(nodes.kinds[made]).toBe(OPERATIONS.indexOf(name));
    }
  });

  test("squares and cubes are products, and a division by a power of two is a product", () => {
    const { nodes, x } = inputs();
    const square = nodes.operation("multiply", x, x);
    expect(nodes.operation("pow", x, nodes.number(2))).toBe(square);
    expect(nodes.operation("pow", x, nodes.number(3))).toBe(nodes.operation("multiply", square, x));
    for (const power of [2, 4, 0.5, -8, 2 ** -100]) {
      const product = nodes.operation("multiply", x, nodes.number(1 / power));
      expect(nodes.operation("divide", x, nodes.number(power))).toBe(product);
    }
  });

  test("choices by what is known are decided, others stand once", () => {
    const { nodes, x, y } = inputs();
    expect(nodes.choice(nodes.number(1), x, y)).toBe(x);
    expect(nodes.choice(nodes.number(0), x, y)).toBe(y);
    expect(nodes.choice(nodes.number(Number.NaN), x, y)).toBe(nodes.number(Number.NaN));
    const when = nodes.operation("less", x, y);
    const made = nodes.choice(when, x, y);
    expect(nodes.choice(when, x, y)).toBe(made);
    expect(nodes.choice(when, y, x)).not.toBe(made);
    expect([nodes.first[made], nodes.second[made], nodes.third[made]]).toEqual([when, x, y]);
    expect(nodes.kinds[made]).toBe(OPERATIONS.indexOf("choose"));
  });

  test("are found again among many thousands", () => {
    const { nodes, x, y } = inputs();
    const chain: number[] = [];
    let last = x;
    for (let k = 0; k < 5000; k++) {
      last = nodes.operation(k % 3 === 0 ? "add" : "multiply", last, k % 2 === 0 ? x : y);
      chain.push(last);
    }
    const size = nodes.size;
    expect(size).toBe(5002);
    let again = x;
    for (let k = 0; k < 5000; k++) {
      again = nodes.operation(k % 3 === 0 ? "add" : "multiply", again, k % 2 === 0 ? x : y);
      expect(again).toBe(chain[k]);
    }
    expect(nodes.size).toBe(size);
  });
});
