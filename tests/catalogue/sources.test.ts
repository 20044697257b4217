import { describe, expect, test } from "vitest";
import { Catalogue, sourcesOf } from "../../src/catalogue/index.ts";
import { memoryLoader, sharedLoader } from "./shared.ts";

const catalogue = new Catalogue(sharedLoader);

describe("the references of a set of values", () => {
  const { parameters } = catalogue.resolve("switch", "taox-bilayer-30nm");
  const references = sourcesOf(Object.values(parameters), catalogue.sources(), [
    { name: "cell_area", source: "cmosvlsi" },
  ]);

  test("are complete, each once, in the order of their keys, and nothing else", () => {
    expect(references.map(({ key }) => key)).toEqual([
      "cmosvlsi",
      "common practice",
      "taox-bilayer-30nm",
      "typical-classes",
    ]);
  });

  test("say for which values they were used", () => {
    const paper = references.find(({ key }) => key === "taox-bilayer-30nm")!;
    expect(paper).toMatchObject({ year: 2011, doi: "10.1038/nmat3070", type: "published" });
    expect(paper.uses).toContainEqual({
      value: "switch/taox-bilayer-30nm/endurance",
      basis: "memory",
    });
    expect(references[0]!.uses).toEqual([{ value: "cell_area", basis: "formula" }]);
  });

  test("keep the user's own word and common practice apart from publications", () => {
    const one = Object.values(parameters)[0]!;
    const types = sourcesOf(
      [
        { ...one, source: "laboratory notebook", basis: "user" },
        { ...one, source: "common practice" },
      ],
      catalogue.sources(),
    ).map(({ key, type }) => [key, type]);
    expect(types).toEqual([
      ["common practice", "practice"],
      ["laboratory notebook", "user"],
    ]);
  });
});

describe("the file of sources", () => {
  test("is refused where it isn't there, isn't one, or lacks a title", () => {
    expect(() => new Catalogue(memoryLoader({})).sources()).toThrow("file-missing");
    const of = (sources: string) => new Catalogue(memoryLoader({ sources })).sources();
    expect(() => of("format: other\n")).toThrow("unknown-format");
    expect(() => of("format: tenfold.sources/1\nsources:\n  a: {venue: book}\n")).toThrow(
      "missing-key",
    );
  });
});
