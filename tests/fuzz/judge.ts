import { TenfoldError } from "../../src/errors/problem.ts";
import { rejection } from "./complaints.ts";
import { runCrossbar } from "./judge-crossbar.ts";
import { runStudy } from "./judge-study.ts";
import { runSwitch } from "./judge-switch.ts";
import type { Kind } from "./material.ts";

/** What became of one text. */
export interface Verdict {
  /**
   * `broken`: no design or case of it works, and the outputs say why. `unsolved`: the solver gave up on a network and
   * said so with 3; it does on some whose floating lines carry nothing through two elements in series.
   */
  readonly outcome: "figures" | "broken" | "refused" | "unsolved" | "finding";
  readonly why?: string;
  /** Codes of what was refused. */
  readonly codes?: readonly string[];
}

/** How a text that was not refused ended. */
export interface Ran {
  /** Whether anything of it has figures. */
  readonly works: boolean;
  /** What no output may hold, where it holds it. */
  readonly complaint: string | undefined;
}

const RUN = { study: runStudy, crossbar: runCrossbar, switch: runSwitch };

/**
 * Runs one text through reading, every kind of study that it asks for, and every output.
 *
 * A rejection must be placed in the text and end with 2; figures must be finite, and no area, energy, time, power or
 * count may be negative.
 */
export async function judge(kind: Kind, text: string): Promise<Verdict> {
  try {
    const { works, complaint } = await RUN[kind](text);
    if (complaint !== undefined) return { outcome: "finding", why: complaint };
    return { outcome: works ? "figures" : "broken" };
  } catch (error) {
    if (!(error instanceof TenfoldError)) {
      const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
      return { outcome: "finding", why: `crash: ${told}` };
    }
    if (isUnsolved(kind, error)) return { outcome: "unsolved" };
    const complaint = rejection(error, text);
    return complaint === undefined
      ? { outcome: "refused", codes: error.problems.map(({ code, what }) => `${code}: ${what}`) }
      : { outcome: "finding", why: complaint };
  }
}

/** A known limit, counted apart; any other end with 3 is a finding. */
export function isUnsolved(kind: Kind, { problems, exitCode }: TenfoldError): boolean {
  const said = problems.every(({ code, place }) => code === "not-converged" && place !== undefined);
  return kind === "crossbar" && exitCode === 3 && said;
}
