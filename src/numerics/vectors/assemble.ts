/**
 * Puts the module together. It takes a few milliseconds, a tenth of a start, so that its bytes stand
 * in `assembled.ts`; the tests make them again.
 */

import {
  type Assembled,
  callAt,
  FunctionBuilder,
  int,
  moduleOf,
  repeatWhile,
} from "../webassembly/assembler.ts";
import { arithmeticKernels } from "./arithmetic.ts";
import { elementaryKernels } from "./elementary.ts";
import { IMPORTED } from "./kernel.ts";
import { KERNELS } from "./kernels.ts";

/** The bytes of the module. */
export function moduleBytes(): Uint8Array<ArrayBuffer> {
  const kernels = new Map([...arithmeticKernels(), ...elementaryKernels()]);
  const ordered = KERNELS.map(({ name }) => kernels.get(name)!);
  return moduleOf([...ordered, runner()], IMPORTED, true);
}

/** Runs instruction after instruction: each says which kernel computes it. */
function runner(): Assembled {
  const f = new FunctionBuilder("run");
  const [code, end, bytes] = [1, 2, 3].map(() => f.parameter("i32"));
  return f.finish(
    repeatWhile(
      [
        callAt(int.load(code!.get), IMPORTED.length, code!.get, bytes!.get),
        code!.set(int.add(code!.get, int.of(32))),
      ],
      int.less(code!.get, end!.get),
    ),
  );
}
