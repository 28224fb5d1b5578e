import type { BookNames } from './bookNames.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const noteWords: Wording<'note'> = {
  group: 'remarks',
  words: (body, { names }) =>
    sentenceOf(body.about === undefined ? 'Remark' : `Remark on ${thing(body.about, names)}`, [
      body.text,
    ]),
};

/** The thing that a remark is about, by its name. */
function thing(id: string, names: BookNames): string {
  const kind = names.entries(id).at(0)?.kind;
  switch (kind) {
    case undefined:
      return 'something that is not here';
    case 'line':
      return `line ${names.line(id)}`;
    case 'placement':
      return names.lay(id);
    case 'straightedge':
      return `the straightedge ${names.straightedge(id)}`;
    case 'gauge':
      return `the gauge ${names.gauge(id)}`;
    case 'sheet':
      return names.sheet(id);
    default:
      return `a ${kind}`;
  }
}
