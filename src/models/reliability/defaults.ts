import { defaultsOf } from "../define.ts";

/** Figures of use that a study may leave out. */
export const reliabilityDefaults = defaultsOf([
  [
    "write_amplification",
    "1",
    1,
    1,
    1,
    "this project",
    "default",
    "words written per word that the user writes: no copies beside the user's",
  ],
  [
    "wear_share",
    "1",
    1,
    1,
    1,
    "this project",
    "default",
    "share of the endurance that spreading makes usable: perfect, an upper bound",
  ],
  [
    "disturb_margin",
    "1",
    10,
    3,
    100,
    "common practice",
    "memory",
    "switching time over what disturbance may add up to",
  ],
  ["cell_fault", "1", 0, 0, 0, "this project", "default", "share of faulty cells: none stated"],
  ["line_fault", "1", 0, 0, 0, "this project", "default", "share of broken lines: none stated"],
  [
    "clustering",
    "1",
    2,
    0.5,
    5,
    "common practice",
    "memory",
    "clustering of the periphery's defects: small is clustered",
  ],
]);
