import type { GaugeInHand } from './gaugeView.ts';
import { readGap } from './readingText.ts';

export type KeyAct = 'insert' | 'erase' | 'void' | 'later' | 'next';

export interface Key {
  readonly act: KeyAct;
  readonly label: string;
  /** What it is called aloud, where the label does not say. */
  readonly spoken?: string;
  /** What `insert` puts at the end of the cell. */
  readonly text?: string;
}

const digit = (text: string): Key => ({ act: 'insert', label: text, text });

/** The keys for a gauge, four a row. A gauge in parts of an inch has a slash and a space, for a fraction that is not in
 *  its own parts; one in mm or decimal inches a point. */
export function keypadKeys({ unit, denominator }: GaugeInHand): readonly (readonly Key[])[] {
  const slash: Key = { act: 'insert', label: '/', spoken: 'over', text: '/' };
  const point: Key = { act: 'insert', label: '.', spoken: 'point', text: '.' };
  const minus: Key = { act: 'insert', label: '−', spoken: 'minus', text: '-' };
  const space: Key = { act: 'insert', label: '␣', spoken: 'space', text: ' ' };
  const [left, right] =
    unit === 'mm' ? [point, minus] : denominator === undefined ? [point, slash] : [slash, space];
  return [
    [digit('7'), digit('8'), digit('9'), { act: 'erase', label: '⌫', spoken: 'Erase' }],
    [digit('4'), digit('5'), digit('6'), { act: 'void', label: 'Void' }],
    [
      digit('1'),
      digit('2'),
      digit('3'),
      { act: 'later', label: 'Later', spoken: 'Come back later' },
    ],
    [digit('0'), left, right, { act: 'next', label: 'Next', spoken: 'Save and next station' }],
  ];
}

/** A cell's text after a key that writes. */
export function typed(text: string, key: Key): string {
  if (key.act === 'erase') return text.slice(0, -1);
  return key.text === undefined ? text : text + key.text;
}

/** The text in full as it would be saved, while it is being typed: "5" is "5/32 in". Empty where it says no more than
 *  the text, or is not yet a length. */
export function inFull(text: string, gauge: GaugeInHand, workUnit: 'mm' | 'in'): string {
  const read = readGap(text, gauge, {}, workUnit);
  return read.is === 'gap' && read.inFull !== text.trim() ? read.inFull : '';
}
