declare const TENFOLD_VERSION: string | undefined;

/** The version of the package; the build puts it in. */
export const version: string =
  typeof TENFOLD_VERSION === "string" ? TENFOLD_VERSION : "0.0.0-source";
