import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { explorerPage, type PageMatter } from "../../src/explorer/page.ts";
import { STYLE } from "../../src/explorer/style.ts";

const PARTS = {
  script: "start()",
  scriptHash: "sha256-script",
  style: "p{}",
  styleHash: "sha256-style",
  engine: "AAAA",
};
const HOSTILE = `</script><script>alert(1)</script><img src=x onerror=alert(2)>"'\`\u2028]]>`;

const matter = (text: string): PageMatter => ({
  text,
  file: `${text}.yaml`,
  version: "0",
  command: text,
  entries: {},
  document: {
    title: text,
    subtitle: text,
    blocks: [
      { kind: "heading", level: 1, text },
      { kind: "paragraph", text },
      { kind: "paragraph", text: "second" },
      { kind: "bars", name: text, unit: "1", bars: [] },
    ],
  },
});

describe("an explorer page", () => {
  const page = explorerPage(matter(HOSTILE), PARTS);

  test("holds the study for its script, whatever the study holds", () => {
    const json = /<script type="application\/json" id="data">(.*?)<\/script>/s.exec(page)![1]!;
    expect(JSON.parse(json)).toMatchObject({ text: HOSTILE, command: HOSTILE, version: "0" });
  });

  test("has three script elements, whatever the study holds, and no handler", () => {
    expect(page.match(/<script/g)).toHaveLength(3);
    expect(page.match(/<\/script>/g)).toHaveLength(3);
    // Attribute values are quoted and escaped; what is left are names.
    expect(page.replace(/"[^"]*"/g, '""')).not.toMatch(/<img|<[^>]*\son\w+=/);
  });

  test("lets nothing run or apply but its own script and style, and fetches nothing", () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)![1]!;
    expect(policy.split("; ")).toEqual([
      "default-src 'none'",
      "script-src 'sha256-script' 'wasm-unsafe-eval'",
      "style-src 'sha256-style'",
      "worker-src blob:",
      "base-uri 'none'",
      "form-action 'none'",
    ]);
    expect(page).not.toMatch(/\s(?:src|href)="(?!#)/);
  });

  test("shows the report without its script, in pieces that have names of their own", () => {
    const keys = [...page.matchAll(/data-key="([^"]*)"/g)].map(([, key]) => key);
    expect(keys.slice(0, 3)).toEqual(["heading", "paragraph", "paragraph-1"]);
    expect(new Set(keys).size).toBe(4);
    expect(page).toMatch(/<div id="study" class="side" hidden>/);
  });
});

test("the style fetches nothing and holds nothing that ends its element", () => {
  expect(STYLE).not.toMatch(/url\(|@import|<\//);
  expect(createHash("sha256").update(STYLE).digest("base64")).toMatch(/=$/);
});
