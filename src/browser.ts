/** The library with the shipped catalogue in it: one file that reads no disk and makes no code from text. */
import { bundleLoader, type CatalogueBundle } from "./catalogue/bundle.ts";
import { BUNDLED } from "./catalogue/bundled.ts";
import type { Loader } from "./catalogue/index.ts";
import { type ReadText, studyReader, type TextOptions } from "./studies/definition.ts";

export * from "./index.ts";
export { bundleLoader, type CatalogueBundle, type ReadText, studyReader, type TextOptions };

let loader: Loader | undefined;
let reader: ReturnType<typeof studyReader> | undefined;

/** The shipped catalogue. */
export function shippedCatalogue(): Loader {
  loader ??= bundleLoader(BUNDLED);
  return loader;
}

/**
 * Opens a study from its text.
 *
 * @throws TenfoldError with every mistake
 */
export function openStudyText(text: string, options: TextOptions = {}): ReadText {
  reader ??= studyReader(shippedCatalogue());
  return reader(text, options);
}
