/** The compiled kernels and the memory that they work on. */
import { moduleOf } from "../../webassembly/assembler.ts";
import { closeColumns, columnsBack, columnsForward, updateAndStart } from "./columns.ts";
import { factorColumns, factorRows } from "./factors.ts";
import { finishAndApply, finishAndRestrict, prolongAndStart, rowsSolve } from "./groups.ts";
import { add, addProduct, advance, junctionVoltages, kirchhoff, ohmicCurrents } from "./network.ts";

type Kernel = (...numbers: number[]) => void;

/** Parameters: see the kernel's own file; arrays by address, sizes and strides in bytes where they say so. */
export interface Kernels {
  readonly columnsForward: Kernel;
  readonly closeColumns: Kernel;
  readonly columnsBack: Kernel;
  readonly updateAndStart: Kernel;
  readonly finishAndApply: Kernel;
  readonly finishAndRestrict: Kernel;
  readonly prolongAndStart: Kernel;
  readonly rowsSolve: Kernel;
  readonly factorRows: Kernel;
  readonly factorColumns: Kernel;
  readonly junctionVoltages: Kernel;
  readonly ohmicCurrents: Kernel;
  readonly addProduct: Kernel;
  readonly add: Kernel;
  readonly advance: Kernel;
  readonly kirchhoff: Kernel;
}

/** An array in the kernels' memory: its address and a view of it. */
export interface Block {
  readonly at: number;
  readonly view: Float64Array;
}

const PAGE = 65536;
/** Memory up to this size is kept for the next solve, because fresh pages cost as much as a sweep. */
const KEEP = 192 * 2 ** 20;

let compiled: WebAssembly.Module | undefined;
let kept: { memory: WebAssembly.Memory; kernels: Kernels } | undefined;

/** Memory of a fixed size, handed out front to back. One is in use at a time. */
export class Arena {
  readonly kernels: Kernels;
  private readonly memory: WebAssembly.Memory;
  private next = 64;

  constructor(bytes: number) {
    const pages = Math.ceil((bytes + 64) / PAGE);
    if (kept !== undefined && kept.memory.buffer.byteLength >= pages * PAGE) {
      this.memory = kept.memory;
      this.kernels = kept.kernels;
      return;
    }
    compiled ??= new WebAssembly.Module(
      moduleOf([
        columnsForward(),
        closeColumns(),
        columnsBack(),
        updateAndStart(),
        finishAndApply(),
        finishAndRestrict(),
        prolongAndStart(),
        rowsSolve(),
        factorRows(),
        factorColumns(),
        junctionVoltages(),
        ohmicCurrents(),
        addProduct(),
        add(),
        advance(),
        kirchhoff(),
      ]),
    );
    this.memory = new WebAssembly.Memory({ initial: pages });
    const instance = new WebAssembly.Instance(compiled, { solver: { memory: this.memory } });
    this.kernels = instance.exports as unknown as Kernels;
    kept = pages * PAGE <= KEEP ? { memory: this.memory, kernels: this.kernels } : undefined;
  }

  /** Everything handed out after the mark can be handed out again. */
  mark(): number {
    return this.next;
  }
  release(mark: number): void {
    this.next = mark;
  }

  /** `count` doubles; their content is whatever was there. */
  doubles(count: number): Block {
    const at = this.next;
    this.next += Math.ceil(count / 2) * 16;
    return { at, view: new Float64Array(this.memory.buffer, at, count) };
  }

  /** An array of m rows of n with a row of zeros before and room for one behind. */
  framed(m: number, n: number): Block {
    const all = this.doubles((m + 2) * n);
    all.view.fill(0, 0, n);
    all.view.fill(0, (m + 1) * n);
    return { at: all.at + 8 * n, view: all.view.subarray(n, (m + 1) * n) };
  }

  /** 32-bit numbers on a block of doubles. */
  integers(count: number): { at: number; view: Int32Array } {
    const { at } = this.doubles(Math.ceil(count / 2));
    return { at, view: new Int32Array(this.memory.buffer, at, count) };
  }
}
