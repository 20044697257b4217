/** The part of the standard WebAssembly interface that is used here; the language's own library leaves it out. */
declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array<ArrayBuffer>);
  }
  class Memory {
    constructor(size: { initial: number });
    readonly buffer: ArrayBuffer;
  }
  class Instance {
    constructor(
      module: Module,
      imports: Record<string, Record<string, Memory | ((...numbers: number[]) => void)>>,
    );
    readonly exports: Record<string, unknown>;
  }
}
