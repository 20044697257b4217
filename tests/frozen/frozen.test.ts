/** Old studies keep their numbers: what moves has been explained in the list of changes, or this fails. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { figuresOf, hashOf, moved, type Pinned } from "./figures.ts";

const FOLDER = new URL(".", import.meta.url).pathname;
const studies = readdirSync(FOLDER).filter((file) => file.endsWith(".yaml"));

test("there are frozen studies", () => expect(studies.length).toBeGreaterThanOrEqual(3));

describe.each(studies)("%s", (file) => {
  const path = FOLDER + file;
  const name = file.replace(/\.yaml$/, "");
  const pinned = JSON.parse(readFileSync(`${FOLDER}${name}.json`, "utf8")) as Pinned;

  test("is word for word the study that was frozen", () => {
    expect(hashOf(readFileSync(path, "utf8"))).toBe(pinned.sha256);
  });

  test("keeps every figure to 1e-9; where one should move, explain it and pin it: `npm run pin`", async () => {
    expect(moved(pinned.figures, await figuresOf(path))).toEqual([]);
  });

  test("has figures whose last move the list of changes explains", () => {
    const note = new URL(`../../.changes/${pinned.explained}`, import.meta.url).pathname;
    expect(existsSync(note), `${pinned.explained} is gone`).toBe(true);
    expect(readFileSync(note, "utf8")).toContain(`\`${name}\``);
  });
});

test("a figure that moves by 1e-8, that is new, or that is gone is noticed", () => {
  expect(moved({ a: [1, 2, 3] }, { a: [1, 2, 3 + 3e-8] })).toHaveLength(1);
  expect(moved({ a: [1] }, { a: [1 + 1e-11] })).toHaveLength(0);
  expect(moved({ a: [1] }, { b: [1] })).toHaveLength(2);
});
