/** The nearest right word to one that isn't known. */

/** Longer words are cut before they are compared: nobody mistypes a name of 60 letters. */
const MOST_LETTERS = 60;

/**
 * The number of letters to insert, delete, replace or swap with their neighbour to turn `a` into
 * `b` (optimal string alignment: no letter is touched twice).
 */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row[j] = Math.min(replaced, last[j]! + 1, row[j - 1]! + 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j]!, beforeLast[j - 2]! + 1);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}

/** Upper and lower case, `-`, `_` and spaces make no difference. */
function plain(word: string): string {
  return word
    .slice(0, MOST_LETTERS)
    .toLowerCase()
    .replace(/[\s_-]+/g, "-");
}

/**
 * The word of `known` that `word` was most likely meant to be, or undefined where none is near: at
 * most one slip per three letters. The first of equally near ones wins. A known word that the given
 * one begins or is contained in counts as near too, such as `transistor` for `one-transistor`.
 */
export function nearestWord(word: string, known: Iterable<string>): string | undefined {
  const wanted = plain(word);
  let best: string | undefined;
  let least = Math.floor(Math.max(wanted.length, 3) / 3) + 0.5;
  let part: string | undefined;
  for (const candidate of known) {
    const given = plain(candidate);
    if (wanted.length >= 4 && part === undefined && holds(given, wanted)) part = candidate;
    if (Math.abs(given.length - wanted.length) > least) continue;
    const distance = editDistance(wanted, given);
    if (distance >= least) continue;
    best = candidate;
    least = distance;
  }
  return best ?? part;
}

/** Whether one of the words is made of whole parts of the other. */
function holds(a: string, b: string): boolean {
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  return short.length >= 4 && `-${long}-`.includes(`-${short}-`);
}
