/** Reads the figure of one key: text with a unit, or a mapping with value, interval and source. */

import { nearestWord } from "../errors/nearest.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";
import {
  BASES,
  type Basis,
  type DistributionKind,
  type Parameter,
} from "../quantities/parameter.ts";
import { readAnyQuantity, readQuantity } from "../quantities/quantity.ts";
import type { QuantityField } from "./field.ts";
import { below, kindOf, type Reading } from "./report.ts";
import { completed, middle, type Spread, spreadProblem, within } from "./spread.ts";
import { DISTRIBUTIONS, VALUE_KEYS } from "./value-keys.ts";
import { child, type MappingNode, type Node, type ScalarNode } from "./yaml/tree.ts";

/**
 * The figure at a node; undefined after a problem was reported.
 * @param name of the quantity, for messages and for the parameter
 */
export function readParameter(
  node: Node,
  name: string,
  field: QuantityField,
  path: string,
  reading: Reading,
): Parameter | "auto" | undefined {
  return new FigureReader(name, field, path, reading).read(node);
}

class FigureReader {
  readonly name: string;
  readonly field: QuantityField;
  readonly path: string;
  readonly reading: Reading;
  /** The unit of the field, or the one that was written where any is right. */
  unit: string | undefined;

  constructor(name: string, field: QuantityField, path: string, reading: Reading) {
    this.name = name;
    this.field = field;
    this.path = path;
    this.reading = reading;
    this.unit = field.unit;
  }

  read(node: Node): Parameter | "auto" | undefined {
    if (node.kind === "list") return this.wrongKind(node);
    if (node.kind === "mapping") return this.longForm(node);
    if (node.text === "auto" && this.field.auto === true) return "auto";
    const value = this.figure(node, this.path);
    if (value === undefined) return undefined;
    return this.parameter(node, { value, low: value, high: value, distribution: "exact" });
  }

  private longForm(node: MappingNode): Parameter | undefined {
    const before = this.reading.problems.length;
    for (const { key, keySpan } of node.entries) {
      if (Object.hasOwn(VALUE_KEYS, key)) continue;
      const nearest = nearestWord(key, Object.keys(VALUE_KEYS));
      this.reading.report(
        "unknown-key",
        `\`${key}\` isn't a key of a figure`,
        below(this.path, key),
        keySpan,
        {
          expected: Object.keys(VALUE_KEYS).join(", "),
          ...(nearest === undefined ? {} : { nearest }),
        },
      );
    }
    const samples = this.samples(node);
    const value = this.part(node, "value") ?? middle(samples);
    const low = this.part(node, "low");
    const high = this.part(node, "high");
    const distribution = this.word<DistributionKind>(
      node,
      "distribution",
      Object.keys(DISTRIBUTIONS),
    );
    const sigma = this.sigma(node, distribution);
    const more = {
      source: this.plainText(node, "source"),
      basis: this.word<Basis>(node, "basis", BASES),
      note: this.plainText(node, "note"),
    };
    if (this.reading.problems.length > before) return undefined;
    if (value === undefined) return this.missingValue(node);
    const least = this.part(node, "least");
    const most = this.part(node, "most");
    if (this.reading.problems.length > before) return undefined;
    const given = { value, low, high, sigma, samples, distribution, least, most };
    const { positive = false, minimum, maximum } = this.field;
    const problem = spreadProblem(given, positive);
    if (problem !== undefined) {
      const at = child(node, problem.key)?.value ?? node;
      this.reading.report(
        "bad-spread",
        `${this.name}: ${problem.what}`,
        this.path,
        at,
        problem.more,
      );
      return undefined;
    }
    return this.parameter(node, within(completed(given, positive), minimum, maximum), more);
  }

  private parameter(
    node: Node,
    spread: Spread,
    more: {
      source?: string | undefined;
      basis?: Basis | undefined;
      note?: string | undefined;
    } = {},
  ): Parameter | undefined {
    const { origin } = this.reading;
    const source = more.source ?? origin.source;
    if (source === undefined) {
      this.reading.report("missing-key", `${this.name} has no \`source\``, this.path, node, {
        expected: "a key of the list of sources, such as `source: cmosvlsi`, or `common practice`",
      });
      return undefined;
    }
    return {
      name: this.name,
      unit: this.unit ?? "1",
      ...spread,
      source,
      basis: more.basis ?? origin.basis,
      ...(more.note === undefined ? {} : { note: more.note }),
      key: origin.keyPrefix + this.path,
    };
  }

  /** A scalar as a number in SI, within the bounds of the field. */
  private figure(node: ScalarNode, path: string, bounded = true): number | undefined {
    if (node.broken) return undefined;
    if (node.value === null || typeof node.value === "boolean") return this.wrongKind(node);
    const value = this.inUnit(node, path);
    if (value === undefined) return undefined;
    if (bounded && !this.withinBounds(value, node, path)) return undefined;
    return value;
  }

  private inUnit(node: ScalarNode, path: string): number | undefined {
    try {
      if (this.unit !== undefined) return readQuantity(node.text, this.unit);
      const { value, unit } = readAnyQuantity(node.text);
      this.unit = unit.text === "" ? "1" : unit.text;
      return value;
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      const [problem] = error.problems;
      this.reading.report(
        problem!.code,
        `${this.name}: ${problem!.what}`,
        path,
        node,
        this.hint(problem!),
      );
      return undefined;
    }
  }

  /**
   * What a figure's problem says beyond its sentence, with the example of the key where it helps.
   */
  private hint(problem: Problem): Partial<Problem> {
    const { code: _, what: __, place: ___, ...rest } = problem;
    const example = this.field.example ?? this.field.default?.value;
    return example === undefined
      ? rest
      : { ...rest, fix: rest.fix ?? `such as \`${this.name}: ${example}\`` };
  }

  private withinBounds(value: number, node: ScalarNode, path: string): boolean {
    const { positive, minimum, maximum } = this.field;
    const unit = this.unit === "1" || this.unit === undefined ? "" : ` ${this.unit}`;
    const refuseRange = (expected: string): false => {
      const what = `${this.name} can't be \`${node.text}\``;
      this.reading.report("out-of-range", what, path, node, { expected });
      return false;
    };
    if (positive === true && value <= 0) return refuseRange("a figure above zero");
    if (minimum !== undefined && value < minimum) return refuseRange(`at least ${minimum}${unit}`);
    if (maximum !== undefined && value > maximum) return refuseRange(`at most ${maximum}${unit}`);
    return true;
  }

  private part(
    node: MappingNode,
    key: "value" | "low" | "high" | "least" | "most",
  ): number | undefined {
    const value = child(node, key)?.value;
    if (value === undefined) return undefined;
    return value.kind === "scalar"
      ? this.figure(value, below(this.path, key))
      : this.wrongKind(value);
  }

  /** The deviation of a logarithm is a plain number; else it has the unit of the value. */
  private sigma(node: MappingNode, distribution: DistributionKind | undefined): number | undefined {
    const value = child(node, "sigma")?.value;
    if (value === undefined) return undefined;
    if (value.kind !== "scalar") return this.wrongKind(value);
    const lognormal =
      distribution === "lognormal" || (distribution === undefined && this.field.positive === true);
    const unit = lognormal ? "1" : this.unit;
    const field: QuantityField = {
      kind: "quantity",
      meaning: "",
      ...(unit === undefined ? {} : { unit }),
    };
    const path = below(this.path, "sigma");
    const sigma = new FigureReader(`sigma of ${this.name}`, field, path, this.reading).figure(
      value,
      path,
    );
    if (sigma === undefined || sigma > 0) return sigma;
    this.reading.report("out-of-range", `sigma of ${this.name} isn't above zero`, path, value);
    return undefined;
  }

  private samples(node: MappingNode): number[] | undefined {
    const value = child(node, "samples")?.value;
    if (value === undefined) return undefined;
    if (value.kind !== "list" || value.items.length === 0) return this.wrongKind(value);
    const path = below(this.path, "samples");
    const numbers = value.items.map((item, i) =>
      item.kind === "scalar" ? this.figure(item, below(path, i)) : this.wrongKind(item),
    );
    return numbers.every((x) => x !== undefined) ? numbers : undefined;
  }

  private word<W extends string>(
    node: MappingNode,
    key: string,
    known: readonly string[],
  ): W | undefined {
    const text = this.plainText(node, key);
    if (text === undefined || known.includes(text)) return text as W | undefined;
    const nearest = nearestWord(text, known);
    this.reading.report(
      "unknown-word",
      `\`${text}\` isn't a ${key}`,
      this.path,
      child(node, key)!.value,
      {
        expected: known.join(", "),
        ...(nearest === undefined ? {} : { nearest }),
      },
    );
    return undefined;
  }

  private plainText(node: MappingNode, key: string): string | undefined {
    const value = child(node, key)?.value;
    if (value === undefined) return undefined;
    if (value.kind === "scalar" && value.value !== null) return value.text;
    return this.wrongKind(value);
  }

  private missingValue(node: MappingNode): undefined {
    this.reading.report("missing-key", `${this.name} has no \`value\``, this.path, node, {
      expected: `a mapping with ${Object.keys(VALUE_KEYS).join(", ")}`,
    });
    return undefined;
  }

  private wrongKind(node: Node): undefined {
    if (node.kind === "scalar" && node.broken) return undefined;
    const unit = this.unit === undefined || this.unit === "1" ? "" : ` with a unit (${this.unit})`;
    this.reading.report("wrong-kind", `${this.name} can't be ${kindOf(node)}`, this.path, node, {
      expected: `a number${unit}, or a mapping with value, low, high, source`,
    });
    return undefined;
  }
}
