/**
 * The root of f by Newton's method from `start`, kept between `low` and `high` by bisection.
 * `f` returns its value and slope; it must rise or fall through the root once.
 */
export function newton(
  f: (x: number) => { value: number; slope: number },
  start: number,
  low: number,
  high: number,
  relative = 4e-16,
): number {
  let [below, above] = [low, high];
  const rising = f(high).value > 0;
  let x = start;
  for (let step = 0; step < 200; step++) {
    const { value, slope } = f(x);
    if (value === 0) return x;
    if (value > 0 === rising) above = x;
    else below = x;
    let next = x - value / slope;
    if (!(next > below && next < above)) next = below + (above - below) / 2;
    if (Math.abs(next - x) <= relative * Math.abs(next)) return next;
    x = next;
  }
  return x;
}
