/** A parsed formula. Our own small tree, so that nothing but `parse.ts` knows the parser. */
export type Tree =
  | {
      readonly kind: "number";
      /** In SI. */
      readonly value: number;
      /**
       * Unit text of a number that was written with a unit (`10 ns`, in expressions only); none:
       * dimension 1.
       */
      readonly unit?: string;
      /** The number and its unit as they were written. */
      readonly written?: string;
    }
  | { readonly kind: "symbol"; readonly name: string }
  | { readonly kind: "negate"; readonly of: Tree }
  | {
      readonly kind: "binary";
      readonly operator: "+" | "-" | "*" | "/" | "^";
      readonly left: Tree;
      readonly right: Tree;
    }
  | { readonly kind: "call"; readonly name: FunctionName; readonly of: readonly Tree[] }
  | {
      readonly kind: "choose";
      readonly when: Comparison;
      readonly chosen: Tree;
      readonly otherwise: Tree;
    };

export interface Comparison {
  readonly operator: "<" | "<=" | ">" | ">=" | "==" | "!=";
  readonly left: Tree;
  readonly right: Tree;
}

/** Functions that a formula may call. */
export const FUNCTIONS = [
  "min",
  "max",
  "ceil",
  "floor",
  "round",
  "abs",
  "sqrt",
  "cbrt",
  "exp",
  "expm1",
  "log",
  "log1p",
  "log2",
  "log10",
  "sinh",
  "cosh",
  "tanh",
  "asinh",
  "acosh",
  "erfc",
  "normal_quantile",
  "normal_tail",
  "gamma",
  "binomial_tail",
  "poisson_tail",
] as const;
export type FunctionName = (typeof FUNCTIONS)[number];
