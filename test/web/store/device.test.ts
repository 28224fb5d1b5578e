import { describe, expect, test } from 'vitest';

import { isKey } from '../../../src/book/id.ts';
import { Device } from '../../../web/store/device.svelte.ts';
import { failureOf, NoAnswer } from '../../../web/store/failure.ts';
import { Persistence } from '../../../web/store/persistence.svelte.ts';
import { strictDurability } from '../../../web/store/strictDurability.ts';

class Shelf {
  text: string | null = null;
  getItem(): string | null {
    return this.text;
  }
  setItem(_: string, text: string): void {
    this.text = text;
  }
}

let seed = 0;
const random = (count: number): Uint8Array => new Uint8Array(count).fill((seed += 1));

describe('a device', () => {
  test('gives itself a key once, and keeps it with what its person prefers', () => {
    const shelf = new Shelf();
    const first = new Device(shelf, random);
    expect(isKey(first.key)).toBe(true);
    first.set({ person: 'Yard hand', unit: 'in', theme: 'sun', division: '1/32 in' });
    const second = new Device(shelf, random);
    expect(second.key).toBe(first.key);
    expect(second).toMatchObject({
      person: 'Yard hand',
      unit: 'in',
      theme: 'sun',
      division: '1/32 in',
      kept: true,
    });
  });

  test('signs with its person and itself, and knows its own also under another name', () => {
    const device = new Device(new Shelf(), random);
    expect(device.label.by).toBe('not stated');
    device.set({ name: 'Tablet in the shed', person: 'Yard hand' });
    const { by, device: signed } = device.label;
    expect(by).toBe('Yard hand');
    expect(signed).toContain('Tablet in the shed');
    device.set({ name: 'Tablet outside' });
    expect(device.owns(signed)).toBe(true);
    expect(device.owns(new Device(new Shelf(), random).label.device)).toBe(false);
  });

  test('keeps what another tab has set meanwhile, and adds its answers to those', () => {
    const shelf = new Shelf();
    const [one, other] = [new Device(shelf, random), new Device(shelf, random)];
    one.set({ person: 'Yard hand', answers: { held: 'resting' } });
    other.set({ answers: { gauge: 'leaves' } });
    expect(other.person).toBe('Yard hand');
    expect(other.answers).toEqual({ held: 'resting', gauge: 'leaves' });
    one.readAgain();
    expect(one.answers).toEqual(other.answers);
  });

  test('lasts as long as the page where the browser keeps nothing, and says so', () => {
    const blocked = {
      getItem: (): string => {
        throw new DOMException('no', 'SecurityError');
      },
      setItem: (): void => {
        throw new DOMException('no', 'QuotaExceededError');
      },
    };
    for (const storage of [undefined, blocked]) {
      const device = new Device(storage, random);
      device.set({ person: 'Yard hand' });
      expect(device.kept).toBe(false);
      expect(device.person).toBe('Yard hand');
    }
  });

  test.each(['', 'null', '{"key":"short"}', '{"key":"0123456789ab","unit":"furlong","answers":7}'])(
    'takes nothing wrong from a stored %j',
    (text) => {
      const shelf = new Shelf();
      shelf.text = text;
      const device = new Device(shelf, random);
      expect(isKey(device.key)).toBe(true);
      expect(device.unit).toBe('mm');
      expect(device.answers).toEqual({});
    },
  );
});

describe('what an error of the database means', () => {
  test.each([
    ['full', Object.assign(new Error('x'), { status: 500, reason: 'QuotaExceededError' })],
    ['full', { name: 'indexed_db_went_bad', reason: new DOMException('x', 'QuotaExceededError') }],
    ['blocked', new DOMException('denied', 'SecurityError')],
    // What Chromium 156 said of a page whose storage is switched off.
    [
      'blocked',
      {
        name: 'indexed_db_went_bad',
        reason: 'The user denied permission to access the database.',
      },
    ],
    ['silent', new NoAnswer('no answer within 15 s')],
    ['other', new DOMException('closing', 'InvalidStateError')],
    ['other', 'nonsense'],
    ['other', undefined],
  ] as const)('is %s for %o', (kind, error) => {
    const failure = failureOf(error);
    expect(failure.kind).toBe(kind);
    expect(failure.words).toMatch(/^This|^The/);
  });
});

describe('whether the browser keeps the records', () => {
  const asking = (persisted: boolean, persist: boolean) => ({
    persisted: () => Promise.resolve(persisted),
    persist: () => Promise.resolve(persist),
  });
  test.each([
    ['granted', asking(true, false)],
    ['granted', asking(false, true)],
    ['refused', asking(false, false)],
    ['untold', undefined],
    ['untold', { ...asking(false, false), persist: () => Promise.reject(new Error('no')) }],
  ] as const)('is %s', async (answer, storage) => {
    const persistence = new Persistence(storage);
    expect(persistence.answer).toBe('asked');
    expect(await persistence.ask()).toBe(answer);
    expect(persistence.answer).toBe(answer);
  });
});

describe('strict durability', () => {
  test('is asked for by every writing transaction, once, and by no reading one', () => {
    const asked: unknown[] = [];
    const prototype = {
      transaction(...given: unknown[]) {
        asked.push(given);
      },
    } as unknown as IDBDatabase;
    strictDurability(prototype);
    strictDurability(prototype);
    prototype.transaction(['a'], 'readwrite');
    prototype.transaction('a', 'readonly');
    prototype.transaction('a', 'readwrite', { durability: 'relaxed' });
    expect(asked).toEqual([
      [['a'], 'readwrite', { durability: 'strict' }],
      ['a', 'readonly', undefined],
      ['a', 'readwrite', { durability: 'relaxed' }],
    ]);
  });
});
