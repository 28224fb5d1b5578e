import type { Dice } from './dice.ts';

export type Damage = (text: string, dice: Dice) => string;

/** What mail, editors, disks, spreadsheets, people and villains do to a text file. */
export const TEXT_DAMAGE: Readonly<Record<string, Damage>> = {
  'a character changed': (text, dice) =>
    spliced(text, dice.below(text.length), 1, anyCharacter(dice)),
  'a stretch gone': (text, dice) => spliced(text, dice.below(text.length), dice.below(40), ''),
  'a stretch twice': (text, dice) => {
    const from = dice.below(text.length);
    return spliced(text, from, 0, text.slice(from, from + dice.below(200)));
  },
  'cut off': (text, dice) => text.slice(0, dice.below(text.length)),
  'its beginning gone': (text, dice) => text.slice(dice.below(Math.min(text.length, 400))),
  'a line gone': (text, dice) =>
    onLines(text, (lines) => lines.splice(dice.below(lines.length), 1)),
  'a line twice': (text, dice) =>
    onLines(text, (lines) => {
      const at = dice.below(lines.length);
      lines.splice(at, 0, lines[at]);
    }),
  'two lines exchanged': (text, dice) =>
    onLines(text, (lines) => {
      const [a, b] = [dice.below(lines.length), dice.below(lines.length)];
      [lines[a], lines[b]] = [lines[b], lines[a]];
    }),
  'two lines made one': (text, dice) =>
    onLines(text, (lines) => {
      const at = dice.below(lines.length);
      lines.splice(at, 2, `${lines[at]}${lines[at + 1] ?? ''}`);
    }),
  'a quotation mark': (text, dice) => spliced(text, dice.below(text.length), 0, '"'),
  'a byte order mark': (text, dice) =>
    spliced(text, dice.of([0, dice.below(text.length)]), 0, '\ufeff'),
  'a NUL': (text, dice) => spliced(text, dice.below(text.length), 0, '\u0000'),
  'as UTF-16 read as Latin-1': (text) => [...text].join('\u0000'),
  'other line ends': (text, dice) =>
    text.replaceAll('\n', dice.of(['\r\n', '\r', '\n\n', '\u2028'])),
  'text of another tongue': (text, dice) =>
    spliced(
      text,
      dice.below(text.length),
      0,
      dice.of(['åß', '測量', '\u202e', '𝟜', '\ud800', '½']),
    ),
  'a very long line': (text, dice) =>
    spliced(text, dice.below(text.length), 0, dice.of(['9', 'x', ',', '"', '#']).repeat(50_000)),
};

/** What happens to tables beside that. */
export const TABLE_DAMAGE: Readonly<Record<string, Damage>> = {
  ...TEXT_DAMAGE,
  'a cell exchanged': (text, dice) =>
    onLines(text, (lines) => {
      const at = dice.below(lines.length);
      const mark = dice.of([',', ';', '\t']);
      const cells = lines[at].split(mark);
      cells[dice.below(cells.length)] = dice.of(CELLS);
      lines[at] = cells.join(mark);
    }),
  'a head renamed': (text, dice) => text.replace(dice.of(HEADS), dice.of([...HEADS, ...CELLS])),
  'other separators': (text, dice) =>
    text.replaceAll(dice.of([',', ';']), dice.of([',', ';', '\t', '|'])),
  'decimal commas': (text) => text.replaceAll(/(\d)\.(\d)/g, '$1,$2'),
  'decimal points': (text) => text.replaceAll(/(\d),(\d)/g, '$1.$2'),
  'a # line': (text, dice) =>
    onLines(text, (lines) =>
      lines.splice(
        dice.below(lines.length),
        0,
        `# ${dice.of(KEYS)}: ${dice.of([...CELLS, '1.5 mm over 1500 mm', 'log', 'athwart'])}`,
      ),
    ),
  'units gone': (text) => text.replaceAll(/_?(mm|in)\b/g, ''),
  'a column gone': (text, dice) => {
    const mark = dice.of([',', ';']);
    const nth = dice.below(6);
    return onLines(text, (lines) => {
      lines.forEach((line, at) => (lines[at] = line.split(mark).toSpliced(nth, 1).join(mark)));
    });
  },
  'a row by itself many times': (text, dice) =>
    onLines(text, (lines) => {
      const at = dice.below(lines.length);
      lines.splice(at, 0, ...Array.from({ length: 400 }, () => lines[at]));
    }),
};

const HEADS = [
  'side',
  'offset',
  'station',
  'gap',
  'placement',
  'repeat',
  'void',
  'P450',
  'look',
  'held',
];
const KEYS = [
  'kind',
  'tolerance',
  'edge',
  'gauge',
  'support',
  'blocks',
  'unit',
  '__proto__',
  'limit',
];
const CELLS = [
  ...[
    '',
    ' ',
    '0',
    '-0',
    '-5',
    '1e9',
    '1e999',
    'NaN',
    'Infinity',
    '-Infinity',
    'null',
    '12mm',
    '3/32',
    '1/0',
    '0x10',
  ],
  ...[
    '1 1/2',
    '1.2.3',
    '1,234.5',
    '=1+1',
    '+cmd',
    '@SUM(A1)',
    '-1-1',
    '<script>alert(1)</script>',
    '"',
    "'",
  ],
  ...[
    '__proto__',
    'constructor',
    'toString',
    'void',
    'x: in the way',
    'later',
    'port',
    'starboard',
    'bucket',
    '999999',
  ],
  ...['../../etc/passwd', 'hasOwnProperty', 'athwart', 'diagonal', '\u0000', '٣', '−5', '５'],
];

/** One damage after another, with their names; none of them empties the text for the next. */
export function damaged(
  text: string,
  kinds: Readonly<Record<string, Damage>>,
  dice: Dice,
): { readonly text: string; readonly done: readonly string[] } {
  const done: string[] = [];
  let now = text;
  for (let left = 1 + dice.below(4); left > 0 && now !== ''; left -= 1) {
    const name = dice.of(Object.keys(kinds));
    now = kinds[name](now, dice);
    done.push(name);
  }
  return { text: now, done };
}

function spliced(text: string, at: number, gone: number, put: string): string {
  return text.slice(0, at) + put + text.slice(at + gone);
}

function onLines(text: string, change: (lines: string[]) => void): string {
  const lines = text.split('\n');
  change(lines);
  return lines.join('\n');
}

function anyCharacter(dice: Dice): string {
  return dice.of([
    () => String.fromCharCode(dice.below(128)),
    () => String.fromCharCode(dice.below(0x3000)),
  ])();
}
