/** Order of names as people expect it: `cmos-5` before `cmos-16`. */

const PARTS = /\d+|\D+/g;

/** Compares two names part by part, digits as numbers. Depends on no locale. */
export function byName(a: string, b: string): number {
  const left = a.match(PARTS) ?? [];
  const right = b.match(PARTS) ?? [];
  for (let i = 0; i < Math.min(left.length, right.length); i++) {
    const [one, other] = [left[i]!, right[i]!];
    if (one === other) continue;
    const difference = Number(one) - Number(other);
    if (!Number.isNaN(difference) && difference !== 0) return difference;
    return one < other ? -1 : 1;
  }
  return left.length - right.length;
}
