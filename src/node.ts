/** The library with node's readers and writers. */
export * from "./index.ts";
export { catalogueFolder, folderLoader } from "./io/catalogue.ts";
export { type Checked, checkFile } from "./io/check.ts";
export { type NamedText, readText } from "./io/read.ts";
export { studySchema } from "./io/schema.ts";
export { type OpenStudy, openStudy, openText, parseStudy } from "./io/study.ts";
export { studyTables } from "./io/tables.ts";
export { writeFileWhole } from "./io/write.ts";
