import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { KIND, KINDS, readEntry } from "../../src/catalogue/index.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { preparedEntry, prepareEntries } from "../../src/io/prepared.ts";

const loader = folderLoader();
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "tenfold-prepared-"));
  prepareEntries(loader, folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("an entry that was read while building", () => {
  test("is the entry that its file gives, for the whole catalogue", () => {
    let compared = 0;
    for (const kind of KINDS) {
      for (const name of loader.names(kind)) {
        const text = loader.read(kind, name)!;
        const anew = readEntry(text, { file: `${KIND[kind].folder}/${name}.yaml`, kind, name });
        expect(preparedEntry(kind, name, text, folder)).toStrictEqual(anew);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  test("is not used for a text that has changed, nor where none was prepared", () => {
    const name = loader.names("switch")[0]!;
    const text = `${loader.read("switch", name)!}# a remark\n`;
    expect(preparedEntry("switch", name, text, folder)).toBeUndefined();
    expect(preparedEntry("switch", "nowhere", text, folder)).toBeUndefined();
    expect(preparedEntry("switch", name, text, join(folder, "nowhere"))).toBeUndefined();
  });
});
