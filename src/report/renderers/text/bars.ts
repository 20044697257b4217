import width from "string-width";
import type { Bar, Bars } from "../../document/document.ts";
import { shareText } from "../figures.ts";
import { clip } from "../plain.ts";

/** How many blocks a whole bar would have if all of it were one part, in a wide enough terminal. */
const WHOLE = 10;
/** What the words and shares beside the blocks need. */
const BESIDE = 32;
/** A part below this share is left to the rest, unless all are. */
const SMALLEST = 0.005;
const LONGEST_LABEL = 24;
const MOST_LINES = 2;

/** Makes a text fit to print: without acting characters, in ASCII where the terminal needs that. */
export type Clean = (text: string) => string;

/**
 * `static  cells ███████▏ 71 %  sense █ 10 %  rest 19 %`: the parts of one total, largest first, as many as fit beside
 * the label in two lines; what does not fit is summed as the rest.
 */
export function drawBars(bars: Bars, room: number, clean: Clean): string[] {
  const labels = bars.bars.map((bar) => clean(clip(bar.label, LONGEST_LABEL)));
  const labelRoom = Math.max(0, ...labels.map((label) => width(label))) + 2;
  return bars.bars.flatMap((bar, i) => {
    const label = labels[i]! + " ".repeat(labelRoom - width(labels[i]!));
    const [first = "", ...others] = drawParts(bar, room - labelRoom, clean);
    return [label + first, ...others.map((line) => " ".repeat(labelRoom) + line)];
  });
}

const EIGHTHS = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"];

/** A length in blocks, to an eighth of a block; in ASCII to whole ones. */
function drawBlocks(length: number, clean: Clean): string {
  const block = clean("█");
  if (block !== "█") return block.repeat(Math.round(length));
  const eighths = Math.round(length * 8);
  return block.repeat(Math.floor(eighths / 8)) + EIGHTHS[eighths % 8]!;
}

/** The pieces of a bar in lines. */
function drawParts(bar: Bar, room: number, clean: Clean): string[] {
  const total = bar.parts.reduce((sum, part) => sum + part.value, 0);
  if (!(total > 0)) return ["none"];
  const longest = Math.max(4, Math.min(LONGEST_LABEL, room - 18));
  const whole = Math.max(0, Math.min(WHOLE, room - BESIDE));
  const parts = bar.parts
    .map((part) => ({ name: clean(clip(part.part, longest)), share: part.value / total }))
    .sort((a, b) => b.share - a.share);
  const lines = new Lines(room);
  let rest = 1;
  for (const [i, part] of parts.entries()) {
    const left = rest - part.share;
    const closing = i === parts.length - 1 ? "" : `rest ${shareText(left)}`;
    const blocks = drawBlocks(part.share * whole, clean);
    const piece = [part.name, blocks, shareText(part.share)].filter((t) => t !== "").join(" ");
    if (i > 0 && (part.share < SMALLEST || !lines.fit(piece, closing))) {
      lines.add(`rest ${shareText(rest)}`);
      break;
    }
    lines.add(piece);
    rest = left;
  }
  return lines.texts;
}

/** Pieces side by side, two blanks apart, in at most so many lines. */
class Lines {
  readonly texts: string[] = [""];
  private readonly room: number;

  constructor(room: number) {
    this.room = room;
  }

  /** Whether a piece has a place, and what would close the bar after it. */
  fit(piece: string, closing: string): boolean {
    const after = new Lines(this.room);
    after.texts.splice(0, 1, ...this.texts);
    after.add(piece);
    if (closing !== "") after.add(closing);
    return after.texts.length <= MOST_LINES;
  }

  add(piece: string): void {
    const last = this.texts.at(-1)!;
    const joined = last === "" ? piece : `${last}  ${piece}`;
    if (last === "" || width(joined) <= this.room) this.texts[this.texts.length - 1] = joined;
    else this.texts.push(piece);
  }
}
