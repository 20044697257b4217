import type { Block, Contents, Heading } from "./document.ts";

/** What is longer names no heading that somebody wrote. */
const LONGEST = 240;

/** A heading with the name by which a link finds it. */
export interface Anchor {
  readonly heading: Heading;
  readonly id: string;
}

/** The headings among the blocks, with names as code hosts make them. */
export function anchorsOf(blocks: readonly Block[]): readonly Anchor[] {
  const taken = new Map<string, number>();
  return blocks.flatMap((block) => {
    if (block.kind !== "heading") return [];
    const slug = slugOf(block.text);
    const before = taken.get(slug) ?? 0;
    taken.set(slug, before + 1);
    return [{ heading: block, id: before === 0 ? slug : `${slug}-${before}` }];
  });
}

/**
 * A list of headings that lead to where they stand.
 *
 * @param blocks of the page that holds them
 * @param page its address, seen from the page with the list; the same page unless given
 */
export function contentsOf(blocks: readonly Block[], page = ""): Contents {
  return {
    kind: "contents",
    items: anchorsOf(blocks).map(({ heading: { level, text }, id }) => ({
      level,
      text,
      target: `${page}#${id}`,
    })),
  };
}

/** A heading's text in small letters, blanks as hyphens, without punctuation. */
export function slugOf(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M} _-]/gu, "")
    .replace(/ /g, "-")
    .slice(0, LONGEST);
}
