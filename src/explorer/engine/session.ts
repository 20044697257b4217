import type { Loader, OwnEntry, Reference } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { parseFormula } from "../../formulas/parse.ts";
import type { Document } from "../../report/document/document.ts";
import { breakdownBars, comparisonTable } from "../../report/documents/comparison.ts";
import { reportFiles } from "../../report/documents/report/files.ts";
import { furtherBlocks } from "../../report/documents/report/further.ts";
import { stackPicture } from "../../report/documents/report/pictures.ts";
import { type ReportMatter, reportDocument, TOTALS } from "../../report/documents/report/report.ts";
import type { Setting } from "../../schema/settings.ts";
import type { Study } from "../../schema/study.ts";
import { testClaims } from "../../studies/claim/claims.ts";
import { type ReadText, studyReader } from "../../studies/definition.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import { studySources } from "../../studies/explain.ts";
import { organiseStudy } from "../../studies/organise/study.ts";
import { chooseKnobs } from "../knobs/choose.ts";
import type { Knob } from "../knobs/knob.ts";
import { sha256 } from "../text/sha256.ts";
import { type Piece, piecesOf } from "./blocks.ts";
import { Designs } from "./designs.ts";

/** What a page is opened with. */
export interface SessionSettings {
  /** The study's file, without folders. */
  readonly file: string;
  /** Of tenfold. */
  readonly version: string;
  /** Entries of the files that the study names, by these names: a page can't read them. */
  readonly entries: Readonly<Record<string, OwnEntry>>;
  /** The command line that writes the same report. */
  readonly command: string;
}

/** Where a knob reads its value. */
export type Reading = Knob["read"];

/** A study as a page shows it. */
export interface Picture {
  readonly title: string;
  /** The line below the title. */
  readonly subtitle: string;
  readonly pieces: readonly Piece[];
}

/** One user at work on one text. */
export class Session {
  private readonly settings: SessionSettings;
  private readonly open: ReturnType<typeof studyReader>;
  private readonly designs = new Designs();
  private readonly sources = new Map<string, readonly Reference[]>();
  private readonly drawn = new Map<string, Piece[]>();
  private last: { readonly text: string; readonly matter: ReportMatter } | undefined;

  constructor(loader: Loader, settings: SessionSettings) {
    this.settings = settings;
    this.open = studyReader(loader);
  }

  /**
   * Figures at the nominal parameters and where they go: what a page shows first after a change.
   *
   * @throws TenfoldError with every mistake, as all methods
   */
  quick(text: string): { readonly pieces: readonly Piece[]; readonly estimate: StudyEstimate } {
    const { study, catalogue } = this.read(text);
    const estimate = this.designs.estimate(study, catalogue, "nominal");
    const table = piecesOf({ blocks: [comparisonTable(estimate)] });
    const stacks = TOTALS.flatMap(([name, unit, caption]) => {
      const bars = breakdownBars(estimate, name, unit, caption);
      return this.remembered(name, JSON.stringify(bars), () =>
        piecesOf({ blocks: stackPicture(bars) }),
      );
    });
    return { pieces: [...table, ...stacks], estimate };
  }

  /** Figures with their intervals, down to where the totals go: what comes next. */
  figures(text: string): readonly Piece[] {
    const blocks = reportDocument({ ...this.matter(text), further: [] }).blocks;
    const end = blocks.findLastIndex((block) => block.kind === "picture");
    return piecesOf({ blocks: blocks.slice(0, end + 1) });
  }

  /** The whole report, as `tenfold report` writes it. */
  report(text: string): Picture {
    const { title, subtitle = "", blocks } = this.document(text);
    return { title, subtitle, pieces: piecesOf({ blocks }) };
  }

  /** The same as a document. */
  document(text: string): Document {
    return reportDocument(this.wholeMatter(text));
  }

  /** Every file of `tenfold report`: path → text. */
  files(text: string): ReadonlyMap<string, string> {
    return reportFiles(this.wholeMatter(text));
  }

  /** The parameters that are worth a slider. */
  knobs(text: string): readonly Knob[] {
    const { study, catalogue } = this.read(text);
    const estimate = this.designs.estimate(study, catalogue, "nominal");
    return chooseKnobs(text, estimate, (changed) => this.read(changed));
  }

  /** What the knobs stand at, in SI; NaN where a design has no such parameter. */
  values({ designs }: StudyEstimate, readings: readonly Reading[]): number[] {
    return readings.map(({ design, parameter }) => {
      const found = designs.find(({ name }) => name === design)?.design;
      return found?.parameters.get(parameter)?.value ?? Number.NaN;
    });
  }

  private read(text: string, set: readonly Setting[] = []): ReadText {
    const { file, entries } = this.settings;
    const bare = this.open(text, { file, set });
    const names = bare.study.catalogue?.files ?? [];
    if (names.length === 0) return bare;
    const own = names.map((name, i) => this.entryOf(bare.study, name, i, entries));
    return this.open(text, { file, set, entries: own });
  }

  private entryOf(
    study: Study,
    name: string,
    i: number,
    entries: SessionSettings["entries"],
  ): OwnEntry {
    const path = `/catalogue/files/${i}`;
    if (Object.hasOwn(entries, name)) return { ...entries[name]!, path };
    return refuse({
      code: "file-missing",
      what: `this page was made without the file ${name}`,
      path,
      place: study.place(path),
      fix: "name it in the file of the study and make the page again with `tenfold explore`",
    });
  }

  private matter(text: string): ReportMatter {
    const { version, command } = this.settings;
    const { study, catalogue } = this.read(text);
    const estimate = this.designs.estimate(study, catalogue, "full");
    const key = JSON.stringify([study.designs, study.catalogue]);
    let references = this.sources.get(key);
    if (references === undefined) {
      references = studySources(study, catalogue, parseFormula);
      this.sources.clear();
      this.sources.set(key, references);
    }
    return { estimate, provenance: { sha256: sha256(text), version }, references, command };
  }

  /** With what the study asks for beside its estimate, which may take long: that of the last text is kept. */
  private wholeMatter(text: string): ReportMatter {
    if (this.last?.text === text) return this.last.matter;
    const matter = this.matter(text);
    const { estimate } = matter;
    const { study, catalogue } = this.read(text);
    const further = furtherBlocks(estimate, {
      ...(study.organise && {
        organised: organiseStudy((set) => this.read(text, set), parseFormula),
      }),
      ...(study.claims && { claims: testClaims(study, catalogue, parseFormula) }),
    });
    this.last = { text, matter: { ...matter, further } };
    return this.last.matter;
  }

  /** What was drawn last under a name, unless it is made of other figures now. */
  private remembered(name: string, made: string, draw: () => Piece[]): Piece[] {
    const key = `${name} ${made}`;
    const known = this.drawn.get(key);
    if (known !== undefined) return known;
    for (const old of this.drawn.keys()) if (old.startsWith(`${name} `)) this.drawn.delete(old);
    const pieces = draw();
    this.drawn.set(key, pieces);
    return pieces;
  }
}
