/** A fixed sequence of standard normal numbers: the same readings always give the same verdict.
 *  Generator: xoshiro128** (Blackman & Vigna 2021, ACM TOMS 47(4)) from a fixed state;
 *  to normal by Box and Muller (1958, Annals of Mathematical Statistics 29, 610). */
export function normalSequence(count: number): Float64Array {
  while (made.length < count) extend();
  return made.subarray(0, count);
}

let made = new Float64Array(0);
const state = Uint32Array.of(0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344);

function extend(): void {
  const longer = new Float64Array(Math.max(1 << 15, made.length * 2));
  longer.set(made);
  for (let i = made.length; i < longer.length; i += 2) {
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    longer[i] = radius * Math.cos(angle);
    longer[i + 1] = radius * Math.sin(angle);
  }
  made = longer;
}

/** In (0, 1], in steps of 2⁻³². */
function uniform(): number {
  const result = Math.imul(rotate(Math.imul(state[1], 5), 7), 9) >>> 0;
  const t = state[1] << 9;
  state[2] ^= state[0];
  state[3] ^= state[1];
  state[1] ^= state[2];
  state[0] ^= state[3];
  state[2] ^= t;
  state[3] = rotate(state[3], 11);
  return (result + 1) / 4294967296;
}

function rotate(x: number, k: number): number {
  return (x << k) | (x >>> (32 - k));
}
