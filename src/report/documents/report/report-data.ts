import type { Provenance } from "../../../studies/estimate-data.ts";
import type { Block, Document } from "../../document/document.ts";

/** `tenfold.report/1`: the report itself as data, every number in SI; of a picture its file and its words. */
export function reportData(document: Document, provenance: Provenance): object {
  return {
    format: "tenfold.report/1",
    ...provenance,
    title: document.title,
    subtitle: document.subtitle,
    blocks: document.blocks.map(blockData),
  };
}

function blockData(block: Block): object {
  if (block.kind === "indented") return { ...block, blocks: block.blocks.map(blockData) };
  if (block.kind !== "picture") return block;
  const { svg: _, ...told } = block;
  return { ...told, file: `charts/${block.name}.svg` };
}
