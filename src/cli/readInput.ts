import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

const PIECE = 1 << 20;

/** The bytes of a file or a pipe, as long as they are no more than `most`: one that is longer, or never ends, is left
 *  as soon as that is seen. Throws as node:fs does, and an Error that says how long is too long. */
export function readInput(file: string, most: number): Uint8Array {
  const descriptor = openSync(file, 'r');
  try {
    if (fstatSync(descriptor).size > most) throw tooLong(most);
    const pieces: Uint8Array[] = [];
    let length = 0;
    for (;;) {
      const piece = new Uint8Array(PIECE);
      const found = readSync(descriptor, piece);
      if (found === 0) return joined(pieces, length);
      length += found;
      if (length > most) throw tooLong(most);
      pieces.push(piece.subarray(0, found));
    }
  } finally {
    closeSync(descriptor);
  }
}

function joined(pieces: readonly Uint8Array[], length: number): Uint8Array {
  const all = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

function tooLong(most: number): Error {
  return new Error(`longer than ${most / 1e6} MB, which is the most that is read`);
}
