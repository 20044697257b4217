/** The library with node's readers and writers. */
export * from "./index.ts";
export { catalogueFolder, folderLoader } from "./io/catalogue.ts";
export { type Checked, checkFile } from "./io/check.ts";
export { type EvidenceFolder, evidenceIn, shippedEvidence } from "./io/evidence.ts";
export { type NamedText, readText } from "./io/read.ts";
export { studySchema } from "./io/schema.ts";
export { type OpenStudy, openStudy, openText, parseStudy } from "./io/study.ts";
export { mergeSweep } from "./io/sweep/merge.ts";
export { planOf, reopener, reopenFile, type SweepSource, sweepSource } from "./io/sweep/open.ts";
export { runSweep, type SweepDone, type SweepJob } from "./io/sweep/run.ts";
export { studyTables } from "./io/tables.ts";
export { writeFileWhole } from "./io/write.ts";
