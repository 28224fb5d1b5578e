import { actsOf } from '../fold/actsOf.ts';
import { listed } from '../sentence.ts';
import { laterWords, readingWords, voidWords } from './readingWords.ts';
import { sentenceOf, type Said, type Wording } from './wording.ts';

export const importWords: Wording<'import'> = {
  group: 'readings',
  words: (body, { names }) => {
    const act = body.columns.indexOf('act');
    const count = (name: string) => body.rows.filter((cells) => cells[act] === name).length;
    const counted = [
      number(count('reading'), 'reading', 'readings'),
      number(count('void'), 'void', 'voids'),
      number(count('later'), 'put off', 'put off'),
    ].filter((words) => words !== '');
    const lines = new Set(body.placements.map((id) => names.lay(id)));
    return sentenceOf('File taken in', [
      body.file ?? 'pasted text',
      body.kept === undefined
        ? number(body.rows.length, 'row', 'rows')
        : `kept whole as ${body.kept.name}, ${number(body.count, 'reading', 'readings')}`,
      counted.length > 0 && listed(counted),
      lines.size > 0 && `of ${listed([...lines])}`,
    ]);
  },
  rows: {
    count: (body) => body.rows.length,
    words: (body, said, from, to) => {
      const stated = { id: said.id, at: '', by: '', body };
      const read = {
        of: (kind: string) => (kind === 'import' ? [stated] : []) as never,
        setAside: [],
      };
      const { acts, setAside } = actsOf(read, new Map());
      const rows = body.rows.slice(from, to).map(() => '');
      const put = (source: string, words: () => string) => {
        const row = Number(source.slice(source.indexOf('#') + 1));
        if (row >= from && row < to) rows[row - from] = words();
      };
      for (const act of acts) put(act.source, () => actWords(act, said));
      for (const { id, reason } of setAside) put(id, () => `Kept, not counted: ${reason}`);
      return rows;
    },
  },
};

function actWords(act: ReturnType<typeof actsOf>['acts'][number], said: Said): string {
  if (act.act === 'reading') return readingWords.words(act.body, said);
  return act.act === 'void' ? voidWords.words(act.body, said) : laterWords.words(act.body, said);
}

function number(count: number, one: string, many: string): string {
  return count === 0 ? '' : `${count} ${count === 1 ? one : many}`;
}
