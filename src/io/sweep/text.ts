/** Rows as lines of text, straight from columns into bytes: no row and no line is ever an object. */
import { csvField } from "../../report/renderers/csv.ts";
import { spellActing } from "../../report/renderers/json.ts";
import type { SweepTable, TableColumn } from "../../studies/sweep/table.ts";
import { LONGEST_NUMBER, writeNumber } from "./number-text.ts";

type TextForm = "csv" | "jsonl";

const COMMA = 44;
const FIRST_SIZE = 1 << 16;
/** Bytes of a character at most. */
const WIDEST = 3;

/** Writes tables of the same columns; its bytes are used again by the next table. */
export class TextWriter {
  private bytes = new Uint8Array(FIRST_SIZE);
  private size = 0;
  private readonly encoder = new TextEncoder();
  private readonly form: TextForm;
  private keys: readonly string[] = [];

  constructor(form: TextForm) {
    this.form = form;
  }

  /** The lines of a table, valid until the next one. */
  write({ columns, data, count }: SweepTable): Uint8Array {
    this.size = 0;
    this.keys = columns.map(({ name }) => `${spellActing(JSON.stringify(name))}:`);
    for (let row = 0; row < count; row++) {
      if (this.form === "csv") this.csvLine(data, row);
      else this.jsonLine(data, row);
    }
    return this.bytes.subarray(0, this.size);
  }

  private csvLine(data: readonly TableColumn[], row: number): void {
    for (let k = 0; k < data.length; k++) {
      if (k > 0) this.byte(COMMA);
      const column = data[k]!;
      if (column.type === "text") {
        const text = column.words[column.codes[row]!];
        if (text !== undefined) this.text(csvField(text));
      } else if (column.type === "truth") this.text(column.values[row] === 1 ? "true" : "false");
      else this.number(column.values[row]!);
    }
    this.text("\r\n");
  }

  private jsonLine(data: readonly TableColumn[], row: number): void {
    this.text("{");
    let first = true;
    for (let k = 0; k < data.length; k++) {
      const column = data[k]!;
      const missing =
        column.type === "text"
          ? column.codes[row]! < 0
          : column.type !== "truth" && !Number.isFinite(column.values[row]!);
      if (missing) continue;
      if (!first) this.byte(COMMA);
      first = false;
      this.text(this.keys[k]!);
      if (column.type === "text")
        this.text(spellActing(JSON.stringify(column.words[column.codes[row]!])));
      else if (column.type === "truth") this.text(column.values[row] === 1 ? "true" : "false");
      else this.number(column.values[row]!);
    }
    this.text("}\n");
  }

  private number(value: number): void {
    if (!Number.isFinite(value)) return;
    this.room(LONGEST_NUMBER);
    this.size = writeNumber(this.bytes, this.size, value);
  }

  private byte(code: number): void {
    this.room(1);
    this.bytes[this.size++] = code;
  }

  private text(text: string): void {
    this.room(WIDEST * text.length);
    const { bytes } = this;
    let at = this.size;
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (code > 127) {
        this.size += this.encoder.encodeInto(text, bytes.subarray(this.size)).written;
        return;
      }
      bytes[at++] = code;
    }
    this.size = at;
  }

  private room(more: number): void {
    if (this.size + more <= this.bytes.length) return;
    const larger = new Uint8Array(2 * Math.max(this.bytes.length, this.size + more));
    larger.set(this.bytes.subarray(0, this.size));
    this.bytes = larger;
  }
}
