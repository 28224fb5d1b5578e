import { readLength } from './readingText.ts';
import type { Typed } from './survey.ts';

/** A length as typed, with its unit: where the text does not say it, the one in which it comes to those mm. */
export function withUnit({ mm, text }: Typed, workUnit: 'mm' | 'in'): string {
  const other = workUnit === 'mm' ? 'in' : 'mm';
  for (const unit of [workUnit, other] as const) {
    const read = readLength(text, { unit });
    if (read.ok && Math.abs(read.mm - mm) < 1e-6) return read.stated ? text : `${text} ${unit}`;
  }
  return `${Number(mm.toFixed(3))} mm`;
}
