import { describe, expect, it } from 'vitest';
import { causeSaid, speedUnitOf, triedWords, typedSpeed } from '../../../web/views/causesView.ts';

describe('a speed typed on the water', () => {
  it('is in the unit of the last run unless it says its own', () => {
    expect(typedSpeed('28', 'kn')?.text).toBe('28 kn');
    expect(typedSpeed('28', 'kn')?.mps).toBeCloseTo(14.4044, 4);
    expect(typedSpeed('32 mph', 'kn')?.mps).toBeCloseTo(14.3053, 4);
    const last = { set: 'before', saw: 'steady', speed: { mps: 14.3, text: '32 mph' } } as const;
    expect(speedUnitOf([last])).toBe('mph');
    expect(speedUnitOf([])).toBe('kn');
  });

  it('is none where it is 0, empty or a word', () => {
    for (const text of ['', '0', 'fast', '-3', '12 furlongs']) {
      expect(typedSpeed(text, 'kn')).toBeUndefined();
    }
  });
});

describe('what is said of a cause', () => {
  const now = { person: 'Jo', date: '2026-06-02' };
  const inch = (size: number) => ({ mm: size * 25.4, text: `${size} in` });

  it('is of the person who found it, today, and stays theirs while more is written', () => {
    const said = causeSaid(undefined, 'weight aft', 'ruled out', { how: '' }, now);
    expect(said).toEqual({ cause: 'weight aft', found: 'ruled out', by: 'Jo', date: '2026-06-02' });
    const later = { person: 'Kim', date: '2026-06-09' };
    expect(causeSaid(said, 'weight aft', 'ruled out', { how: 'sandbags' }, later)).toEqual({
      ...said,
      how: 'sandbags',
    });
    expect(causeSaid(said, 'weight aft', 'is the cause', {}, later)).toMatchObject({
      by: 'Kim',
      date: '2026-06-09',
    });
  });

  it('keeps what was measured before anything is found, and when the finding is taken back', () => {
    const pocket = { length: inch(12), vented: 'not vented' } as const;
    const measured = causeSaid(undefined, 'tab pockets', 'NOT CHECKED', { pocket }, now);
    expect(measured).toEqual({ cause: 'tab pockets', pocket });
    const found = causeSaid(measured, 'tab pockets', 'contributes', {}, now);
    expect(found).toMatchObject({ found: 'contributes', pocket });
    expect(causeSaid(found, 'tab pockets', 'NOT CHECKED', {}, now)).toEqual({
      cause: 'tab pockets',
      pocket,
      by: 'Jo',
      date: '2026-06-02',
    });
  });

  it('is nothing once it is neither found nor measured', () => {
    const found = causeSaid(undefined, 'propeller', 'contributes', { how: 'borrowed one' }, now);
    expect(causeSaid(found, 'propeller', 'NOT CHECKED', {}, now)).toBeUndefined();
    expect(causeSaid(undefined, 'tab pockets', 'NOT CHECKED', { pocket: {} }, now)).toBeUndefined();
  });

  it('names who tried it and when, else who wrote it down', () => {
    const body = { cause: 'weight aft', found: 'ruled out' } as const;
    const stated = { id: 'a', at: '2026-06-02T09:00:00Z', by: 'Jo', body };
    expect(triedWords(stated)).toBe('Tried by Jo, 2026-06-02.');
    expect(triedWords({ ...stated, body: { ...body, by: 'Kim', date: '2026-06-01' } })).toBe(
      'Tried by Kim, 2026-06-01.',
    );
    expect(triedWords({ ...stated, by: 'not stated' })).toBe(
      'Tried 2026-06-02; by whom is not stated.',
    );
    expect(triedWords({ ...stated, body: { cause: 'weight aft' } })).toBeUndefined();
  });
});
