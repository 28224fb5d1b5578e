import { sentenceOf, type Wording } from './wording.ts';

export const signatureWords: Wording<'signature'> = {
  group: 'remarks',
  words: ({ role, name, strokes, entries, rows, digest }) =>
    sentenceOf(`Signed, ${role}`, [
      name,
      strokes === undefined ? 'name typed' : 'drawn by hand',
      `over ${entries.length} ${entries.length === 1 ? 'entry' : 'entries'}`,
      rows !== undefined &&
        rows.length > 0 &&
        `with ${rows.length} struck ${rows.length === 1 ? 'row' : 'rows'} of files`,
      `what they say has the SHA-256 ${digest}`,
    ]),
};
