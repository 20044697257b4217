/** What was written before and can be had again. */

/** A text with what was selected in it. */
export interface Version {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** Changes of one origin that follow each other within this time are one step. */
const TOGETHER = 800;
const MOST_STEPS = 500;

/** Steps to take back and to take again. Who calls says the time: nothing here has a clock. */
export class History {
  private readonly past: Version[] = [];
  private readonly future: Version[] = [];
  private now: Version;
  private origin = "";
  private last = Number.NEGATIVE_INFINITY;
  private gesture = Number.NaN;

  constructor(first: Version) {
    this.now = first;
  }

  get current(): Version {
    return this.now;
  }

  get canUndo(): boolean {
    return this.past.length > 0;
  }

  get canRedo(): boolean {
    return this.future.length > 0;
  }

  /**
   * Notes a change.
   *
   * @param origin what was moved or typed into: changes of another origin are a step of their own
   * @param time in milliseconds
   * @param gesture a number that changes of one drag share, however long it takes
   */
  change(next: Version, origin: string, time: number, gesture = Number.NaN): void {
    if (next.text === this.now.text) {
      this.now = next;
      return;
    }
    const soon = time - this.last < TOGETHER || gesture === this.gesture;
    const joined = origin === this.origin && soon && this.past.length > 0;
    if (!joined) this.past.push(this.now);
    if (this.past.length > MOST_STEPS) this.past.shift();
    this.future.length = 0;
    this.now = next;
    this.origin = origin;
    this.last = time;
    this.gesture = gesture;
  }

  undo(): Version | undefined {
    return this.step(this.past, this.future);
  }

  redo(): Version | undefined {
    return this.step(this.future, this.past);
  }

  private step(from: Version[], to: Version[]): Version | undefined {
    const found = from.pop();
    if (found === undefined) return undefined;
    to.push(this.now);
    this.now = found;
    this.origin = "";
    return found;
  }
}
