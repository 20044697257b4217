import width from "string-width";
import type { Bar, Bars } from "../../document/document.ts";
import { shareText } from "../figures.ts";
import { clip } from "../plain.ts";

/** How many blocks a whole bar would have if all of it were one part, in a wide enough terminal. */
const WHOLE = 20;
/** What the words and shares beside the blocks need. */
const BESIDE = 32;
/** A part below this share is left to the rest, unless all are. */
const SMALLEST = 0.005;
const LONGEST_LABEL = 24;

/** Makes a text fit to print: without acting characters, in ASCII where the terminal needs that. */
export type Clean = (text: string) => string;

/**
 * `static  cells ████████████ 71 %  sense ██ 10 %  rest 8 %`: the parts of one total, largest first, as many as fit
 * beside the label; what does not fit is summed as the rest.
 */
export function drawBars(bars: Bars, room: number, clean: Clean): string[] {
  const labels = bars.bars.map((bar) => clean(clip(bar.label, LONGEST_LABEL)));
  const labelRoom = Math.max(0, ...labels.map((label) => width(label))) + 2;
  return bars.bars.map((bar, i) => {
    const label = labels[i]! + " ".repeat(labelRoom - width(labels[i]!));
    return label + drawParts(bar, room - labelRoom, clean);
  });
}

function drawParts(bar: Bar, room: number, clean: Clean): string {
  const total = bar.parts.reduce((sum, part) => sum + part.value, 0);
  if (!(total > 0)) return "none";
  const longest = Math.max(4, Math.min(LONGEST_LABEL, room - 18));
  const parts = bar.parts
    .map((part) => ({ name: clean(clip(part.part, longest)), share: part.value / total }))
    .sort((a, b) => b.share - a.share);
  const whole = Math.max(0, Math.min(WHOLE, room - BESIDE));
  const shown: string[] = [];
  let used = 0;
  let rest = 1;
  for (const [i, part] of parts.entries()) {
    const blocks = clean("█").repeat(Math.round(part.share * whole));
    const piece = [part.name, blocks, shareText(part.share)].filter((t) => t !== "").join(" ");
    const gap = shown.length > 0 ? 2 : 0;
    const left = rest - part.share;
    const closing = i === parts.length - 1 ? 0 : 2 + width(`rest ${shareText(left)}`);
    if (shown.length > 0 && (part.share < SMALLEST || used + gap + width(piece) + closing > room)) {
      break;
    }
    shown.push(piece);
    used += gap + width(piece);
    rest = left;
  }
  if (shown.length < parts.length && rest > 0) shown.push(`rest ${shareText(rest)}`);
  return shown.join("  ");
}
