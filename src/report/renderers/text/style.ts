/** How a terminal shows emphasis. Without colour every function gives back its text. */
export interface Style {
  bold(text: string): string;
  dim(text: string): string;
  warn(text: string): string;
}

const between =
  (on: number, off: number) =>
  (text: string): string =>
    text === "" ? text : `\u001b[${on}m${text}\u001b[${off}m`;

const COLOURED: Style = { bold: between(1, 22), dim: between(2, 22), warn: between(33, 39) };

const same = (text: string): string => text;
const PLAIN: Style = { bold: same, dim: same, warn: same };

export function styleFor(color: boolean): Style {
  return color ? COLOURED : PLAIN;
}
