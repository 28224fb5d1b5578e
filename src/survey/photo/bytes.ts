/** Bytes as characters of the same numbers; fewer where they end. */
export function asciiOf(bytes: Uint8Array, from: number, count: number): string {
  return String.fromCharCode(...bytes.subarray(from, from + count));
}

export function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
