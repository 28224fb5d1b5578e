import { gapRefusal, type LayReach } from '../../src/survey/gapRefusal.ts';
import { readLength } from '../../src/survey/readingText.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { showLength, showUnit } from '../../src/survey/units.ts';
import { withUnit } from '../../src/survey/withUnit.ts';
import type { GaugeInHand } from './gaugeView.ts';

/** What a cell's text says: nothing, a gap, or why it is none. */
export type GapRead =
  | { readonly is: 'empty' }
  | { readonly is: 'gap'; readonly gap: Typed; readonly unit: string; readonly inFull: string }
  | { readonly is: 'refused'; readonly words: string };

/** Reads a cell as the gauge in hand writes it: with 1/32 in, 5 is 5/32. What no edge could show is refused, in the
 *  words that a file's cell gets. A gap in another unit than the survey's carries its unit in its text, so that the
 *  record can be read by itself. */
export function readGap(
  text: string,
  gauge: GaugeInHand,
  lay: LayReach,
  workUnit: 'mm' | 'in',
): GapRead {
  const { unit, denominator } = gauge;
  const read = readLength(plainFigure(text), {
    unit,
    ...(denominator !== undefined && { denominator }),
    decimal: '.',
  });
  if (!read.ok) {
    if (read.reason === 'absent') return { is: 'empty' };
    return { is: 'refused', words: `Found “${read.found}”, expected ${read.expected}.` };
  }
  const refusal = gapRefusal(read.mm, lay, gauge.division);
  if (refusal !== undefined) {
    return { is: 'refused', words: `Found “${read.text}”, expected ${refusal}.` };
  }
  const inFull = read.stated ? read.text : `${read.text} ${read.unit}`;
  const gap = { mm: read.mm, text: read.unit === workUnit && !read.stated ? read.text : inFull };
  const counted =
    read.stated || denominator === undefined
      ? { unit: read.unit }
      : { unit: read.unit, denominator };
  return { is: 'gap', gap, unit: showUnit(counted), inFull };
}

/** A digital gauge may put a plus before its figure, and its unit in capitals, close to it: "+0.10IN". A gap
 *  is too small for a mark of thousands, so that a comma is a decimal one; it is kept as a point. */
function plainFigure(text: string): string {
  return text
    .trim()
    .replace(/^([^.,]*),(\d[^.,]*)$/, '$1.$2')
    .replace(/^\+\s*(?=[\d.,])/, '')
    .replace(/(?<=\d)\s*(mm|in)$/i, (unit) => ` ${unit.trim().toLowerCase()}`);
}

/** A length with its unit, in the survey's own where it comes out even there, to 1/64 in or 0.1 mm: a file has its
 *  lengths in mm whatever the hull was measured in. Else as typed. */
export function inWorkUnit(length: Typed, workUnit: 'mm' | 'in'): string {
  const typed = withUnit(length, workUnit);
  if (typed.endsWith(` ${workUnit}`)) return typed;
  const parts = workUnit === 'in' ? (length.mm / 25.4) * 64 : length.mm * 10;
  if (Math.abs(parts - Math.round(parts)) > 1e-6) return typed;
  const shown =
    workUnit === 'in'
      ? showLength(length.mm, { unit: 'in', denominator: 64 })
      : String(Math.round(parts) / 10);
  return `${shown} ${workUnit}`;
}

/** A length as typed, for a column that has the unit in its head: the unit stands only where it is another. */
export function inColumn(length: Typed, workUnit: 'mm' | 'in'): string {
  const full = withUnit(length, workUnit);
  return full.endsWith(` ${workUnit}`) ? full.slice(0, -workUnit.length - 1) : full;
}
