import { afterEach, expect, test, vi } from "vitest";
import { terminalOf } from "../../src/cli/terminal.ts";

const terminal = (columns?: number) => ({ isTTY: true, columns }) as NodeJS.WriteStream;
const env = (values: Record<string, string>): void => {
  const plain = { NO_COLOR: "", TERM: "xterm", LC_ALL: "", LC_CTYPE: "", LANG: "en_GB.UTF-8" };
  for (const [name, value] of Object.entries({ ...plain, ...values })) vi.stubEnv(name, value);
};
afterEach(() => vi.unstubAllEnvs());

test("a file or pipe gets the same text wherever it is made", () => {
  env({ LANG: "C", TERM: "dumb" });
  const pipe = { isTTY: false, columns: 200 } as unknown as NodeJS.WriteStream;
  expect(terminalOf(pipe, false)).toEqual({ width: 80, color: false, ascii: false });
});

test("a terminal gets its own width, but no line that is too long to read", () => {
  env({});
  expect([40, 80, 100, 300, undefined].map((c) => terminalOf(terminal(c), false).width)).toEqual([
    40, 80, 100, 120, 80,
  ]);
});

test("NO_COLOR, --no-color and a dumb terminal switch colours off", () => {
  env({});
  expect(terminalOf(terminal(), false).color).toBe(true);
  expect(terminalOf(terminal(), true).color).toBe(false);
  env({ NO_COLOR: "1" });
  expect(terminalOf(terminal(), false).color).toBe(false);
  env({ TERM: "dumb" });
  expect(terminalOf(terminal(), false).color).toBe(false);
});

test("a locale that names another encoding gets ASCII, one that names none gets Unicode", () => {
  env({ LANG: "C" });
  expect(terminalOf(terminal(), false).ascii).toBe(true);
  env({ LANG: "C", LC_ALL: "C.utf8" });
  expect(terminalOf(terminal(), false).ascii).toBe(false);
  env({ LANG: "" });
  expect(terminalOf(terminal(), false).ascii).toBe(false);
});
