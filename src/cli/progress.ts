/** A line on standard error that tells how far the work is; nothing where that is no terminal. */
export class Progress {
  private readonly what: string;
  private readonly shown: boolean;
  private readonly start = performance.now();
  private last = Number.NEGATIVE_INFINITY;

  constructor(what: string, options: { readonly quiet: boolean }) {
    this.what = what;
    this.shown = !options.quiet && process.stderr.isTTY === true;
  }

  /**
   * @param done of `total`, in the units of `what`
   * @param now how many of them by this run, which the rate is of
   */
  tell(done: number, total: number, now: number): void {
    const time = performance.now();
    if (!this.shown || (time - this.last < 200 && done < total)) return;
    this.last = time;
    const rate = now / Math.max(1e-9, (time - this.start) / 1000);
    const left = rate > 0 ? (total - done) / rate : Number.POSITIVE_INFINITY;
    const share = total > 0 ? Math.floor((100 * done) / total) : 100;
    process.stderr.write(
      `\r\u001b[K${share} % of ${total} ${this.what}, ${short(rate)} a second, ${duration(left)} left`,
    );
  }

  end(): void {
    if (this.shown) process.stderr.write("\r\u001b[K");
  }
}

function short(rate: number): string {
  return rate >= 1000 ? `${Math.round(rate / 1000)} thousand` : rate.toPrecision(2);
}

function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return "unknown time";
  if (seconds < 90) return `${Math.ceil(seconds)} s`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 90 ? `${minutes} min` : `${Math.ceil(minutes / 60)} h`;
}
