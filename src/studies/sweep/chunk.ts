/** The points of a sweep, some thousand at a time. */
import type { Setting } from "../../schema/settings.ts";
import { ChunkFigures } from "./figures.ts";
import { meets, type SweepPlan } from "./plan.ts";
import { rowsOf, type SweepRow, type SweepTable, type TableColumn, Words } from "./table.ts";

/** Points of a chunk unless said: what workers take at a time. */
export const CHUNK = 4096;

/** How many chunks a sweep has. */
export function chunksOf({ total }: SweepPlan, size = CHUNK): number {
  return Math.ceil(total / size);
}

/**
 * Computes the chunks of a sweep, each a pure function of plan and number: who computes it does not
 * matter. The columns of a table are used again by the next one.
 */
export class SweepChunks {
  readonly plan: SweepPlan;
  readonly size: number;
  private readonly places: readonly Uint32Array[];
  private readonly figures: readonly ChunkFigures[];
  private readonly data: readonly TableColumn[];
  private readonly reasons = new Words();
  private readonly sources: readonly Source[];
  private readonly cells: Uint32Array;
  /** One column for each parameter that varies. */
  private readonly inputs: readonly Float64Array[];
  private readonly all: Uint32Array;

  /** @param size points of a chunk */
  constructor(plan: SweepPlan, size = CHUNK) {
    this.plan = plan;
    this.size = Math.min(size, plan.total);
    this.places = plan.axes.map(() => new Uint32Array(this.size));
    this.figures = plan.designs.map(() => new ChunkFigures(plan, this.size));
    const rows = this.size * plan.designs.length;
    const words = this.wordsOf();
    this.data = plan.columns.map(({ name, type }): TableColumn => {
      if (type === "truth") return { type, values: new Uint8Array(rows) };
      if (type === "text") return { type, codes: new Int32Array(rows), words: words(name) };
      return { type, values: new Float64Array(rows) };
    });
    this.sources = this.sourcesOf();
    this.cells = new Uint32Array(rows);
    this.all = Uint32Array.from({ length: this.size }, (_, i) => i);
    this.inputs = plan.axes.flatMap(({ variables }) =>
      variables.filter(({ kind }) => kind === "parameter").map(() => new Float64Array(this.size)),
    );
  }

  get count(): number {
    return chunksOf(this.plan, this.size);
  }

  /** The rows of one chunk, in the order of points and, within a point, of designs. */
  table(chunk: number): SweepTable {
    const { plan, size } = this;
    const start = chunk * size;
    const count = Math.max(0, Math.min(size, plan.total - start));
    this.place(start, count);
    for (const one of this.figures) one.clear(count);
    for (const { settings, points } of this.bySettings(count)) {
      const inputs = this.parameters(points);
      const families = plan.families(settings);
      for (const [d, design] of plan.designs.entries()) {
        this.figures[d]!.compute(families.get(design)!, inputs, points);
      }
    }
    return { columns: plan.columns, count: this.fill(start, count), data: this.data };
  }

  /** What the codes of each column of texts mean. */
  private wordsOf(): (name: string) => readonly string[] {
    const texts = new Map(
      this.plan.axes.flatMap(({ variables }) =>
        variables.map(({ name, texts: own }) => [name, own] as const),
      ),
    );
    return (name) =>
      name === "design"
        ? this.plan.designs
        : name === "reason"
          ? this.reasons.list
          : texts.get(name)!;
  }

  /** For each axis, where on it each point of the chunk lies; the last axis is the fastest. */
  private place(start: number, count: number): void {
    const { axes } = this.plan;
    for (let i = 0; i < count; i++) {
      let rest = start + i;
      for (let a = axes.length - 1; a >= 0; a--) {
        const { length } = axes[a]!;
        this.places[a]![i] = rest % length;
        rest = Math.floor(rest / length);
      }
    }
  }

  /** The points that share all settings. */
  private bySettings(count: number) {
    const { axes } = this.plan;
    const changing = axes.flatMap(({ variables }, a) =>
      variables.some(({ kind }) => kind === "setting") ? [a] : [],
    );
    if (changing.length === 0) return [{ settings: [], points: this.all.subarray(0, count) }];
    const groups = new Map<string, { settings: Setting[]; points: number[] }>();
    for (let i = 0; i < count; i++) {
      const key = changing.map((a) => this.places[a]![i]).join(" ");
      let group = groups.get(key);
      if (group === undefined) {
        const settings = changing.flatMap((a) =>
          axes[a]!.variables.flatMap(({ name, kind, texts }) =>
            kind === "setting" ? [{ path: name, value: texts[this.places[a]![i]!]! }] : [],
          ),
        );
        group = { settings, points: [] };
        groups.set(key, group);
      }
      group.points.push(i);
    }
    return groups.values();
  }

  private parameters(points: ArrayLike<number>): readonly Float64Array[] {
    let k = 0;
    for (const [a, { variables }] of this.plan.axes.entries()) {
      const places = this.places[a]!;
      for (const { kind, values } of variables) {
        if (kind !== "parameter") continue;
        const column = this.inputs[k++]!;
        for (let i = 0; i < points.length; i++) column[i] = values[places[points[i]!]!]!;
      }
    }
    return this.inputs;
  }

  /** Writes the rows that meet the conditions, column by column; returns how many. */
  private fill(start: number, count: number): number {
    const { designs } = this.plan;
    const rows = this.kept(count);
    this.reasons.clear();
    for (const [k, from] of this.sources.entries()) {
      const column = this.data[k]!;
      const to: { [row: number]: number } = column.type === "text" ? column.codes : column.values;
      for (let row = 0; row < rows; row++) {
        const cell = this.cells[row]!;
        const i = Math.floor(cell / designs.length);
        to[row] = from(i, cell - i * designs.length, start);
      }
    }
    return rows;
  }

  /** Lists the cells, point times designs plus design, that become rows; returns how many. */
  private kept(count: number): number {
    const { designs, conditions } = this.plan;
    const { cells } = this;
    const all = count * designs.length;
    if (conditions.length === 0) {
      for (let cell = 0; cell < all; cell++) cells[cell] = cell;
      return all;
    }
    let [i, d, rows] = [0, 0, 0];
    const at = new Map(this.known.map(([name, value]) => [name, () => value(i, d)] as const));
    const lookUp = (name: string): number | undefined => at.get(name)?.();
    for (let cell = 0; cell < all; cell++) {
      i = Math.floor(cell / designs.length);
      d = cell - i * designs.length;
      if (meets(conditions, lookUp)) cells[rows++] = cell;
    }
    return rows;
  }

  /** Where the figures that conditions may read come from. */
  private get known(): readonly (readonly [string, (i: number, d: number) => number])[] {
    const { axes, quantities, spread } = this.plan;
    const step = spread === undefined ? 1 : 3;
    return [
      ...axes.flatMap(({ variables }, a) =>
        variables
          .filter(({ kind }) => kind === "parameter")
          .map(({ name, values }) => [name, (i: number) => values[this.places[a]![i]!]!] as const),
      ),
      ...quantities.map(
        (name, q) =>
          [name, (i: number, d: number) => this.figures[d]!.columns[q * step]![i]!] as const,
      ),
    ];
  }

  /** What each column of the table takes its cells from. */
  private sourcesOf(): Source[] {
    const { axes } = this.plan;
    const { figures } = this;
    return [
      (i, _, start) => start + i,
      (_, d) => d,
      ...axes.flatMap(({ variables }, a) => {
        const places = this.places[a]!;
        return variables.map(
          ({ kind, values }): Source =>
            kind === "parameter" ? (i) => values[places[i]!]! : (i) => places[i]!,
        );
      }),
      (i, d) => (figures[d]!.reasons[i] === undefined ? 1 : 0),
      ...figures[0]!.columns.map(
        (_, k): Source =>
          (i, d) =>
            figures[d]!.columns[k]![i]!,
      ),
      (i, d) => this.reasons.code(figures[d]!.reasons[i]),
    ];
  }
}

/** The cell of a column, of a point and a design of the chunk that starts at a point. */
type Source = (i: number, d: number, start: number) => number;

/** The tables of a sweep, one after the other, in constant memory; each is used again by the next. */
export async function* sweepTables(plan: SweepPlan): AsyncGenerator<SweepTable, void, void> {
  const chunks = new SweepChunks(plan);
  for (let chunk = 0; chunk < chunks.count; chunk++) {
    yield chunks.table(chunk);
    // Whoever shares the thread, such as a page, gets its turn.
    await new Promise((resolve) => setTimeout(resolve));
  }
}

/**
 * All rows of a sweep, one after the other, in constant memory.
 *
 * @param plan from `planSweep`
 */
export async function* sweepRows(plan: SweepPlan): AsyncGenerator<SweepRow, void, void> {
  for await (const table of sweepTables(plan)) yield* rowsOf(table);
}
