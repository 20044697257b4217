/**
 * A word of a command line that a shell of the POSIX family reads as that one word, on one line:
 * what would break a line or act on a terminal is spelled out, as bash and others read it.
 */
export function shellWord(text: string): string {
  if (/^[\w./=+-]+$/.test(text)) return text;
  if (!ACTING.test(text)) return `'${text.replaceAll("'", "'\\''")}'`;
  const spelled = [...text].map((c) => {
    if (c === "'" || c === "\\") return `\\${c}`;
    return ACTING.test(c) ? [...new TextEncoder().encode(c)].map(octal).join("") : c;
  });
  return `$'${spelled.join("")}'`;
}

const ACTING = /[\p{Cc}\p{Cf}\u2028\u2029]|\p{Surrogate}/u;

function octal(byte: number): string {
  return `\\${byte.toString(8).padStart(3, "0")}`;
}
