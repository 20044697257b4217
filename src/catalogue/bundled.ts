import type { CatalogueBundle } from "./bundle.ts";

/** The shipped catalogue: the build for browsers puts it here, other builds read its folder. */
export const BUNDLED: CatalogueBundle = { names: {}, entries: {}, sources: "" };
