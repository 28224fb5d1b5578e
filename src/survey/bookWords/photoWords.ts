import { withUnit } from '../withUnit.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const photoWords: Wording<'photo'> = {
  group: 'remarks',
  words: ({ caption, line, station, kept, original }, { unit, names }) =>
    sentenceOf('Photo', [
      caption === undefined || caption === '' ? 'without a caption' : `“${caption}”`,
      line !== undefined && `line ${names.line(line)}`,
      station && `station ${withUnit(station, unit)}`,
      `${kept.width} × ${kept.height} pixels, kept as ${kept.name} (${kept.type}, ${kept.bytes} bytes, SHA-256 ${kept.sha256})`,
      original &&
        `from ${original.name ?? 'a file'} (${original.type}, ${original.width} × ${original.height} pixels, ${original.bytes} bytes)`,
    ]),
};
