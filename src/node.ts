/** The library with node's readers and writers. */
export * from "./index.ts";
export { catalogueFolder, folderLoader } from "./io/catalogue.ts";
export { type NamedText, readText } from "./io/read.ts";
export { writeFileWhole } from "./io/write.ts";
