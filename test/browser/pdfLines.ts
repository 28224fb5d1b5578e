import { inflateSync } from 'node:zlib';

type Matrix = readonly [number, number, number, number, number, number];
export interface PdfLine {
  /** Length on paper, mm. */
  readonly length: number;
  readonly lies: 'level' | 'upright' | 'aslant';
}

const POINT = 25.4 / 72;

/** Every straight piece of every path that a PDF draws, measured on paper.
 *  Operators: ISO 32000-1, 8.4.4 (cm, q, Q) and 8.5.2 (m, l). */
export function pdfLines(pdf: Buffer): PdfLine[] {
  return contentStreams(pdf).flatMap(linesIn);
}

function contentStreams(pdf: Buffer): string[] {
  const text = pdf.toString('latin1');
  const found: string[] = [];
  for (const match of text.matchAll(/\/Length (\d+)[^>]*>>\s*stream\r?\n/g)) {
    const start = match.index + match[0].length;
    try {
      found.push(
        inflateSync(new Uint8Array(pdf.subarray(start, start + Number(match[1])))).toString(
          'latin1',
        ),
      );
    } catch {
      // Not every stream is deflated text: fonts and the like.
    }
  }
  return found.filter((stream) => / cm\s/.test(stream));
}

function linesIn(stream: string): PdfLine[] {
  const lines: PdfLine[] = [];
  const saved: Matrix[] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  let at: readonly [number, number] = [0, 0];
  const operands: number[] = [];
  const on = (x: number, y: number): readonly [number, number] => [
    matrix[0] * x + matrix[2] * y + matrix[4],
    matrix[1] * x + matrix[3] * y + matrix[5],
  ];
  for (const token of stream.split(/\s+/)) {
    const number = Number(token);
    if (token !== '' && !Number.isNaN(number)) {
      operands.push(number);
      continue;
    }
    const [a = NaN, b = NaN, c = NaN, d = NaN, e = NaN, f = NaN] = operands;
    if (token === 'q') saved.push(matrix);
    else if (token === 'Q') matrix = saved.pop() ?? matrix;
    else if (token === 'cm') {
      const [p, q, r, s, t, u] = matrix;
      matrix = [
        p * a + r * b,
        q * a + s * b,
        p * c + r * d,
        q * c + s * d,
        p * e + r * f + t,
        q * e + s * f + u,
      ];
    } else if (token === 'm') at = on(a, b);
    else if (token === 'l') {
      const to = on(a, b);
      const [across, up] = [Math.abs(to[0] - at[0]), Math.abs(to[1] - at[1])];
      lines.push({
        length: Math.hypot(across, up) * POINT,
        lies: up < 1e-3 ? 'level' : across < 1e-3 ? 'upright' : 'aslant',
      });
      at = to;
    }
    operands.length = 0;
  }
  return lines;
}
