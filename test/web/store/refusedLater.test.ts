import { expect, test } from 'vitest';
import { refusedLater } from '../../../web/store/refusedLater.ts';

const factory = (open: (name: string, version?: number) => unknown) =>
  ({ open }) as unknown as IDBFactory;

test('a database that may not be opened is a request that fails, and says what the browser calls it', async () => {
  const refusing = factory(() => {
    throw new DOMException('access is denied in this context', 'SecurityError');
  });
  refusedLater(refusing);
  const request = refusing.open('one', 5);
  const said = await new Promise<string>((resolve) => {
    request.onerror = ({ target }) => resolve((target as IDBOpenDBRequest).error?.message ?? '');
  });
  expect(said).toBe('SecurityError: access is denied in this context');
});

test('one that may is opened as it was, by name and version, however often this was asked for', () => {
  const opened: unknown[] = [];
  const giving = factory(function (this: unknown, name, version) {
    opened.push(this, name, version);
    return 'the request';
  });
  refusedLater(giving);
  refusedLater(giving);
  expect(giving.open('two', 5)).toBe('the request');
  expect(opened).toEqual([giving, 'two', 5]);
});
