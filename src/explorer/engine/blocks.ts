import { anchorsOf } from "../../report/document/contents.ts";
import type { Block, Document } from "../../report/document/document.ts";
import { renderBlock } from "../../report/renderers/html/html.ts";

/** A piece of a page that is replaced as a whole when its text changes. */
export interface Piece {
  /** The same for the same piece of every study. */
  readonly key: string;
  readonly html: string;
}

/** The blocks of a document as pieces of a page. */
export function piecesOf({ blocks }: Pick<Document, "blocks">): Piece[] {
  const ids = new Map<Block, string>(anchorsOf(blocks).map(({ heading, id }) => [heading, id]));
  const taken = new Map<string, number>();
  return blocks.map((block) => {
    const name = nameOf(block);
    const before = taken.get(name) ?? 0;
    taken.set(name, before + 1);
    const key = before === 0 ? name : `${name}-${before}`;
    return { key, html: renderBlock(block, ids.get(block)) };
  });
}

function nameOf(block: Block): string {
  return "name" in block ? `${block.kind}-${block.name}` : block.kind;
}
