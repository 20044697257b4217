import type { Catalogue } from "../../../catalogue/index.ts";
import type { ExtraFormula } from "../../../formulas/program.ts";
import type { ParameterDefault } from "../../../models/define.ts";
import type { PartUse } from "../../../models/periphery/index.ts";
import { contentsOf, slugOf } from "../../document/contents.ts";
import type { Block, Document } from "../../document/document.ts";
import { heading, paragraph } from "../../document/make.ts";
import { CAUTIONS } from "../cautions.ts";
import { catalogueBlocks, sourceBlocks } from "./catalogue.ts";
import { defaultBlocks, fieldBlocks } from "./defaults.ts";
import { byName, compositionBlocks, modelBlocks, type PlacedModel } from "./models.ts";
import { cellBlocks, countingBlocks } from "./parts.ts";

/** Everything that an estimate is made of. */
export interface HandbookMatter {
  readonly models: readonly PlacedModel[];
  /** Prefixes with which a design uses a model, by the model's name. */
  readonly prefixes: ReadonlyMap<string, readonly string[]>;
  /** Formulas that stand in no sheet. */
  readonly compositions: readonly ExtraFormula[];
  readonly parts: readonly PartUse[];
  readonly defaults: readonly ParameterDefault[];
  readonly catalogue: Catalogue;
}

/** Chapters by the folder in which their models stand; the first that fits takes a model. */
const CHAPTERS: readonly (readonly [folder: string, title: string])[] = [
  ["src/models/process/", "Transistors"],
  ["src/models/wire/", "Wires"],
  ["src/models/switch/", "Switches"],
  ["src/models/selector/", "Selectors and the voltages of a junction"],
  ["src/models/cells/", "Cells"],
  ["src/models/crossbar/", "Crossbar"],
  ["src/models/periphery/tile/", "Periphery of a tile"],
  ["src/models/periphery/", "Periphery of banks and of the macro"],
  ["src/models/functions/", "Functions"],
  ["src/models/reliability/", "Reliability"],
  ["src/catalogue/", "Figures that follow from other figures"],
  ["src/estimate/", "Composition"],
  ["", "More"],
];

/** One page of the handbook. */
export interface HandbookPage {
  /** The file's name without its ending. */
  readonly name: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** The handbook of all models, page by page: formulas, units, meanings, sources, defaults, catalogue. */
export function handbookPages(matter: HandbookMatter): readonly HandbookPage[] {
  const { models, prefixes, compositions, parts, defaults, catalogue } = matter;
  return [
    ...chapters(models, prefixes),
    page("Sums that a design makes", compositionBlocks(compositions)),
    page("Kinds of cells and counting", [...cellBlocks(), ...countingBlocks(parts)]),
    page("Defaults", [...defaultBlocks(defaults), ...fieldBlocks()]),
    page("Catalogue", catalogueBlocks(catalogue)),
    page("Sources", sourceBlocks(catalogue)),
  ];
}

function page(title: string, blocks: readonly Block[]): HandbookPage {
  return { name: slugOf(title), title, blocks };
}

function chapters(
  models: readonly PlacedModel[],
  prefixes: HandbookMatter["prefixes"],
): HandbookPage[] {
  const groups = byName(models);
  const folderOf = (file: string) => CHAPTERS.find(([folder]) => file.startsWith(folder))![0];
  return CHAPTERS.flatMap(([folder, title]) => {
    const own = groups.filter((forms) => folderOf(forms[0]!.file) === folder);
    return own.length === 0
      ? []
      : [
          page(
            title,
            own.flatMap((forms) => modelBlocks(forms, prefixes.get(forms[0]!.model.name))),
          ),
        ];
  });
}

const TITLE = "The models of tenfold";
const SUBTITLE =
  "Generated from the sheets that are computed: what stands here is what is computed.";
const INTRODUCTION = paragraph(
  "Each formula is followed by its unit, meaning, source and range. Sources are keys of the list " +
    "at the end. A use of a sheet gets a prefix: the delay of the word lines, row_line_delay, is " +
    "the delay of line_delay with the prefix row_line_.",
);

/** The page that leads to the others, which stand in `folder`. */
export function handbookIndex(pages: readonly HandbookPage[], folder: string): Document {
  return {
    title: TITLE,
    subtitle: SUBTITLE,
    blocks: [
      INTRODUCTION,
      ...pages.flatMap(({ name, title, blocks }) => [
        heading(title),
        contentsOf(blocks, `${folder}/${name}.md`),
      ]),
      ...CAUTIONS,
    ],
  };
}

/** One page as a document of its own. */
export function handbookChapter({ title, blocks }: HandbookPage): Document {
  const raised = blocks.map((one): Block => (one.kind === "heading" ? heading(one.text) : one));
  return { title, subtitle: SUBTITLE, blocks: [contentsOf(raised), ...raised] };
}

/** All pages in one. */
export function handbookBook(pages: readonly HandbookPage[]): Document {
  const blocks = pages.flatMap((one) => [heading(one.title), ...one.blocks]);
  return {
    title: TITLE,
    subtitle: SUBTITLE,
    blocks: [INTRODUCTION, contentsOf(blocks), ...blocks, ...CAUTIONS],
  };
}
