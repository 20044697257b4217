/**
 * The definition of every key of a study: what the reader, the editors' schema and the key
 * reference are made of.
 */

import { cellField } from "./cell-field.ts";
import {
  choice,
  either,
  entry,
  figures,
  group,
  list,
  name,
  named,
  positive,
  quantity,
  section,
  share,
  text,
  whole,
  wholeOrAuto,
} from "./define.ts";
import type { AnyField, Field, Section } from "./field.ts";
import { reliabilityField } from "./reliability.ts";
import type {
  Bias,
  Design,
  Die,
  Sense,
  StudyFile,
  Tile,
  UserCatalogue,
  Wires,
  Write,
} from "./study.ts";
import type { StudySections, StudyTables } from "./tables.ts";

export type { StudySections, StudyTables };

/** Absolute zero is no place for a chip, nor is a furnace. */
const COLDEST = 1;
const HOTTEST = 1000;

const temperature = quantity("K", "temperature of the silicon", {
  minimum: COLDEST,
  maximum: HOTTEST,
  example: "25 degC",
  default: { value: "25 degC", source: "common practice" },
});

/** `tile: auto` is the largest tile; the reader puts it into words of rows and columns. */
const tile = either(
  "one crossbar with its drivers and amplifiers, or the largest that works",
  choice("the largest tile that works", {
    auto: "as many rows and columns as margin, write voltage and disturbance allow",
  }),
  group<Tile>("one crossbar with the drivers, decoders and sense amplifiers that serve only it", {
    rows: wholeOrAuto("rows of a tile", { maximum: 65536, example: "512" }),
    columns: wholeOrAuto("columns of a tile", { maximum: 65536, example: "512" }),
    decks: whole("crossbars stacked over each other", {
      maximum: 1024,
      example: "2",
      default: { value: "1", source: "common practice" },
    }),
    column_share: wholeOrAuto("columns that share a sense amplifier", {
      maximum: 65536,
      example: "8",
    }),
    lines: choice("which lines are local to a tile, and which are divided over several", {
      whole:
        "each tile has its own row decoder, amplifiers and write drivers; the default of logic processes",
      columns:
        "a column of tiles shares global bit lines with amplifiers and write drivers, whose area " +
        "falls while bit lines settle later",
      divided:
        "and a row of tiles shares main row lines with their decoder; the default of memory " +
        "processes",
    }),
  }),
) as Field<unknown> as Field<Tile>;

const scheme = (meaning: string) =>
  choice(meaning, {
    floating: "left open",
    grounded: "held at the potential of the selected column",
    "one-half": "at half of the applied voltage",
    "one-third": "rows at one third, columns at two thirds",
  });

const sense = group<Sense>("the sense amplifiers", {
  offset: positive(
    "V",
    "standard deviation of the offset, in place of pairs sized for the signal",
    {
      example: "10 mV",
    },
  ),
  sigmas: positive("1", "standard deviations that the margin must have", { example: "6" }),
  comparison: choice("how the levels of a cell of several bits are told apart", {
    successive:
      "by successive approximation: one amplifier decides once for each of the b bits, against the " +
      "reference that the bits before leave; the default, since it takes least area",
    parallel:
      "all at once: 2^b - 1 amplifiers and references for each sensed column, and an encoder",
  }),
});

const write = group<Write>("how cells are written", {
  current_limit: positive("A", "current of all cells that are written at once", {
    example: "2 mA",
  }),
  bits_at_once: wholeOrAuto("bits that a tile writes at once", { example: "8" }),
  verify_pulses: positive("1", "pulses of one write with its verification", { example: "3" }),
});

function wires(tables: StudyTables): Field<Wires> {
  const of = (meaning: string): Field<Wires["rows"] & object> =>
    entry("wire level", meaning, tables.wire);
  return group<Wires>("the wires, by level of the technology or with their own figures", {
    rows: of("wires along the rows"),
    columns: of("wires along the columns"),
    routes: of("wires between the tiles"),
  });
}

function designFields(tables: StudyTables): {
  readonly [K in keyof Design]-?: Field<Exclude<Design[K], undefined>>;
} {
  return {
    title: text("a name for tables, in place of the key"),
    cell: cellField(tables),
    capacity: whole("what the macro stores", { unit: "bit", example: "1 Mib" }),
    word: whole("bits of one access", { unit: "bit", maximum: 65536, example: "32 bit" }),
    banks: wholeOrAuto("banks that are accessed apart", { maximum: 65536, example: "4" }),
    tile,
    die: group<Die>(
      "a whole die instead of a macro: pads, interface, test and repair, internal supplies, rails, edges",
      {
        pads: wholeOrAuto("bond pads; `auto` counts word, address, control and supplies", {
          maximum: 65536,
          required: true,
          example: "auto",
        }),
      },
    ),
    bias: either(
      "voltage of the unselected rows and columns",
      scheme("voltage of the unselected rows and columns in reads and writes"),
      group<Bias>("voltage of the unselected rows and columns, for each kind of access", {
        read: scheme("in reads; grounded lines also load the row, but leave the column alone"),
        write: scheme("in writes"),
      }),
    ),
    technology: entry("technology", "the CMOS process", tables.technology),
    temperature,
    wires: wires(tables),
    error_correction: either(
      "the code that guards each word",
      choice("a code by name", {
        none: "no check bits",
        single: "corrects one bit of a word",
        "single-double": "corrects one bit and detects two",
      }),
      group<{ readonly corrects: number }>("a code by its strength", {
        corrects: whole("bits that it corrects in a word", {
          maximum: 64,
          required: true,
          example: "2",
        }),
      }),
    ),
    spare_rows: whole("spare rows of a tile", { minimum: 0, maximum: 65536, example: "4" }),
    spare_columns: whole("spare columns of a tile", { minimum: 0, maximum: 65536, example: "4" }),
    periphery_beneath: share("share of the periphery that lies beneath the cells", {
      example: "30 %",
    }),
    supply: positive("V", "core supply, in place of the technology's", {
      maximum: 100,
      example: "1.2 V",
    }),
    feature: positive("m", "half pitch of the wires of the crossbar", {
      maximum: 1e-3,
      example: "65 nm",
    }),
    sense,
    write,
    reliability: reliabilityField,
    overrides: figures(
      "parameters by name, in place of what models and technology say",
      tables.overrides,
    ),
  };
}

function userCatalogue(tables: StudyTables): Field<UserCatalogue> {
  const of = (kind: "technology" | "switch" | "selector" | "baseline") =>
    named(`entries of kind ${kind}`, "a name", entry(kind, `a ${kind}`, tables[kind]));
  return group<UserCatalogue>("entries that the study adds to the catalogue or lays over it", {
    files: list(
      "files with entries, beside the study",
      text("path of a file", { example: "my-switch.yaml" }),
    ),
    technologies: of("technology"),
    switches: of("switch"),
    selectors: of("selector"),
    baselines: of("baseline"),
  });
}

/** The definition of a whole study. */
export function studyField(tables: StudyTables, sections: StudySections = {}): Field<StudyFile> {
  const design = group<Design>("a design", designFields(tables));
  const part = (meaning: string, field: AnyField | undefined): Field<Section> =>
    (field ?? section(meaning)) as Field<Section>;
  return group<StudyFile>("a study", {
    title: text("what is compared, in one line", { required: true, example: "Working memory" }),
    question: text("what the study is to decide"),
    about: text("anything a reader should know"),
    technology: entry("technology", "the CMOS process of all designs", tables.technology),
    temperature,
    baseline: name("the design that the others are compared with", { example: "static" }),
    defaults: group<Design>("keys of a design that hold for all designs", designFields(tables)),
    designs: named("what is compared", "the name of a design", design, { required: true }),
    coverage: quantity("1", "share of the distribution that an interval holds", {
      minimum: 0.5,
      maximum: 0.999,
      example: "95 %",
      default: { value: "95 %", source: "common practice" },
    }),
    seed: whole("where the random draws begin", {
      minimum: 0,
      maximum: 2 ** 32 - 1,
      example: "1",
      default: { value: "1", source: "this project" },
    }),
    samples: whole("draws of the parameters", {
      minimum: 16,
      maximum: 2 ** 24,
      example: "1024",
      default: { value: "1024", source: "this project" },
    }),
    catalogue: userCatalogue(tables),
    claims: part("sentences with a number that the tool tests", sections.claims),
    sweep: part("parameters that are varied", sections.sweep),
    organise: part("what is sought among organisations", sections.organise),
    uncertainty: part("how ranges of parameters are carried to results", sections.uncertainty),
    standby: part("how the memory is used, for its mean power", sections.standby),
  });
}
