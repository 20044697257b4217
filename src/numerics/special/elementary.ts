/**
 * The elementary functions that engines are free to round differently. Numeric code takes them
 * from here, so that one file decides which implementation a result rests on.
 */
export const exp: (x: number) => number = Math.exp;
export const expm1: (x: number) => number = Math.expm1;
export const log: (x: number) => number = Math.log;
export const log1p: (x: number) => number = Math.log1p;
export const log2: (x: number) => number = Math.log2;
export const log10: (x: number) => number = Math.log10;
export const pow: (x: number, y: number) => number = Math.pow;
export const sin: (x: number) => number = Math.sin;
export const cos: (x: number) => number = Math.cos;
export const tan: (x: number) => number = Math.tan;
export const sinh: (x: number) => number = Math.sinh;
export const cosh: (x: number) => number = Math.cosh;
export const tanh: (x: number) => number = Math.tanh;
export const asinh: (x: number) => number = Math.asinh;
export const acosh: (x: number) => number = Math.acosh;
export const cbrt: (x: number) => number = Math.cbrt;
/** Square roots are rounded correctly by every engine; here for symmetry. */
export const sqrt: (x: number) => number = Math.sqrt;
