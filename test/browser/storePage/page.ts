import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { storeInBrowser } from '../../../web/store/inBrowser.ts';
import { rescue } from '../../../web/store/rescue.ts';

/** The store on a page of its own, so that the app needs no hooks for tests. */
const page = {
  ...storeInBrowser('0.1.0'),
  rescue: (hull: string) => rescue(indexedDB, hull),
  fillUp,
  reading: (mm: number) =>
    draftOf('reading', {
      placement: 'placement',
      station: { mm: 0, text: '0' },
      gap: { mm, text: String(mm) },
      look: 1,
    }),
  gaps: (hull: string) =>
    page.yard
      .open(hull)
      .standing.standing.flatMap(({ kind, body }) =>
        kind === 'reading' ? [(body as { gap: { mm: number } }).gap.mm] : [],
      )
      .sort((a, b) => a - b),
};

/** Writes to a database of its own until the browser takes not even a few bytes more. */
async function fillUp(): Promise<void> {
  const ballast = await answer(() => {
    const request = indexedDB.open('ballast', 1);
    request.onupgradeneeded = () =>
      request.result.createObjectStore('pieces', { autoIncrement: true });
    return request;
  });
  for (let size = 1_000_000; size >= 10; size = Math.floor(size / 4)) {
    while (
      await wrote(ballast, crypto.getRandomValues(new Uint8Array(Math.min(size, 65_536))), size)
    );
  }
  ballast.close();
}

function wrote(ballast: IDBDatabase, piece: Uint8Array, size: number): Promise<boolean> {
  return new Promise((resolve) => {
    const transaction = ballast.transaction('pieces', 'readwrite');
    const pieces = transaction.objectStore('pieces');
    for (let left = size; left > 0; left -= piece.length) pieces.add(piece);
    transaction.oncomplete = () => resolve(true);
    transaction.onabort = () => resolve(false);
  });
}

function answer<T>(ask: () => IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const request = ask();
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('no reason'));
  });
}

export type StorePage = typeof page;

declare global {
  interface Window {
    store: StorePage;
  }
}

window.store = page;
