import { displayUnit, engineeringPrefix } from "../../quantities/display.ts";
import { unitText } from "../../quantities/format.ts";

/** The unit in which a slider shows its value: temperatures in the degrees that people have. */
export function displayOf(unit: string, show: string | undefined, value: number) {
  const wanted = show ?? (unit === "K" ? "degC" : undefined);
  // A bare prefix of a count can't be read back.
  const shown =
    wanted !== undefined
      ? displayUnit(wanted)
      : unit === "1"
        ? displayUnit("1")
        : engineeringPrefix([value], unit);
  const { text, factor, offset } = shown;
  return { unit: text, factor, offset, printed: unitText(text === "" ? "1" : text) };
}
