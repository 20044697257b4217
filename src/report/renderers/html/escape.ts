import { plain } from "../plain.ts";

const SPECIAL: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
  "`": "&#96;",
};

/** A text as HTML content or quoted attribute value in which nothing is markup. */
export function escapeHtml(text: string): string {
  return plain(text).replace(/[&<>"'`]/g, (c) => SPECIAL[c]!);
}
