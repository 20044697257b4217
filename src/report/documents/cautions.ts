import { note } from "../document/make.ts";

/** What every report says at its end. */
export const CAUTIONS = [
  note(
    "caution",
    "Early estimate, not sign-off: use the foundry's data before you commit. Where failure can " +
      "hurt people, qualified engineers and the codes that apply decide.",
  ),
];
