// The formulas of all shipped sheets, parsed while building, so that the program starts without the parser.
// Two steps: a small bundle of the registry runs here and gives the table; the real bundle gets the table as a module.

/** The esbuild plug-in that puts the table in. */
export async function shippedTrees() {
  return { name: "shipped-trees", setup() {} };
}
