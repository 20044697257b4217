import { refuse } from "../errors/problem.ts";
import type { Setting } from "../schema/settings.ts";

/** `path=value`, as the command line gives them. */
export function settings(given: readonly string[]): readonly Setting[] {
  return given.map((text) => {
    const at = text.indexOf("=");
    if (at > 0) return { path: text.slice(0, at).trim(), value: text.slice(at + 1).trim() };
    return refuse({
      code: "usage",
      what: `--set can't be ${text}`,
      expected: "the place of a value, `=` and the value, such as temperature=85degC",
    });
  });
}
