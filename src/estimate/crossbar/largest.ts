/** The largest tile that works. */

/** A tile size that was tried: undefined where it works, else what is wrong. */
export type Fault = string | undefined;

export interface Largest {
  /** Lines of the largest tile that works, a power of two; undefined where none does. */
  readonly lines?: number;
  /** The next power of two and its fault; undefined where the search ended at its bound. */
  readonly beyond?: { readonly lines: number; readonly fault: string };
  /** About how many lines would still do, between the two. */
  readonly about?: number;
}

/** Halvings of the interval between a tile that works and one that doesn't. */
const HALVINGS = 5;

/**
 * Doubles the lines of a tile until one does not work; a tile that does not work has no larger one
 * that does.
 *
 * @param least lines of the smallest tile that may be tried, a power of two
 * @param most lines of the largest
 * @param faultAt tries a size
 * @param between tries a size between two tried ones, cheaply
 */
export function largestLines(
  least: number,
  most: number,
  faultAt: (lines: number) => Fault,
  between: (lines: number) => Fault,
): Largest {
  let works: number | undefined;
  for (let lines = least; lines <= most; lines *= 2) {
    const fault = faultAt(lines);
    if (fault === undefined) {
      works = lines;
      continue;
    }
    const beyond = { lines, fault };
    if (works === undefined) return { beyond };
    let [low, high] = [works, lines];
    for (let k = 0; k < HALVINGS && high - low > 1; k++) {
      const middle = Math.floor((low + high) / 2);
      if (between(middle) === undefined) low = middle;
      else high = middle;
    }
    return { lines: works, beyond, about: low };
  }
  return works === undefined ? {} : { lines: works };
}
