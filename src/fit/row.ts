/** Numbers a block: 64 kB. */
const BLOCK = 8192;

let block = new Float64Array(BLOCK);
let used = 0;

/** An array of `length` zeros, cut from a block that others are cut from too: a judgement takes thousands of them, and
 *  to make each on its own takes longer than to fill it. For what is worked with and let go: whoever keeps one, or
 *  sends one to another thread, keeps or sends the block. */
export function row(length: number): Float64Array {
  if (length > BLOCK / 4) return new Float64Array(length);
  if (used + length > BLOCK) {
    block = new Float64Array(BLOCK);
    used = 0;
  }
  used += length;
  return block.subarray(used - length, used);
}
