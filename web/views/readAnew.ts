import type { Entry } from '../../src/book/entry.ts';
import { correctionOf } from '../../src/survey/fold/correctionOf.ts';
import type { Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import type { Look } from './readingsView.ts';

/** A reading stated once more with changes; it strikes the reading as it was. A row of a file is no reading's entry:
 *  what it says is taken from the table. `lay`: id of its laying. */
export function readAnew(
  standing: readonly Entry[],
  { reading }: Look,
  lay: string,
  changes: Partial<BodyOf<'reading'>>,
  why: string,
): Draft {
  const { source, station, gap, look } = reading;
  const { line } = reading as { readonly line?: string };
  const former = standing.find(({ _id }) => _id === source.split('#')[0]);
  const read = former?.kind === 'reading' ? readBody('reading', former.body) : undefined;
  const body: BodyOf<'reading'> = read?.ok
    ? read.body
    : { placement: lay, station, gap, look, ...(line !== undefined && { line }) };
  return correctionOf(standing, [source], 'reading', { ...body, ...changes }, why);
}
