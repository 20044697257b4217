/**
 * How large a formula or an expression may be, so that no text can exhaust the stack or the clock.
 */

/** Characters of one text. */
export const LONGEST_TEXT = 2000;
/** Brackets inside brackets. */
export const DEEPEST_BRACKETS = 40;
/** Levels of the tree; a sum of n terms has n levels. */
export const DEEPEST_TREE = 200;
