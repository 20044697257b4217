/**
 * A number from a text, so that what is tried of a case is the same in every run: FNV-1a of its UTF-16 units. Remarks at
 * its head, which a kept finding has, don't count.
 */
export function numberOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = /^(?:#.*\n)*/.exec(text)![0].length; i < text.length; i++) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return hash >>> 0;
}
