/** Why the browser's storage did not take or give something. */
export interface StoreFailure {
  /** `full`: no room left; `blocked`: the browser lets the page keep nothing; `silent`: no answer within time. */
  readonly kind: 'full' | 'blocked' | 'silent' | 'other';
  /** What happened, in a sentence for the person. */
  readonly words: string;
  /** What the browser called it. */
  readonly detail: string;
}

/** Storage that gives no answer within its time. */
export class NoAnswer extends Error {
  override readonly name = 'NoAnswer';
}

const WORDS = {
  full: 'This device has no room left.',
  blocked: 'This browser lets the page keep nothing: a private window, or storage switched off.',
  silent: 'The record on this device does not answer.',
  other: 'The record on this device cannot be read or written just now.',
} as const;

/** What an error of the database means to the person. PouchDB answers a full disk with status 500,
 *  `indexed_db_went_bad` and the reason `QuotaExceededError`; what comes after, on the same handle, is an
 *  `InvalidStateError`. */
export function failureOf(error: unknown): StoreFailure {
  const detail = detailOf(error);
  const kind = /quota/i.test(detail)
    ? 'full'
    : /SecurityError|denied permission|private browsing|Invalid Adapter/i.test(detail)
      ? 'blocked'
      : error instanceof NoAnswer
        ? 'silent'
        : 'other';
  return { kind, words: WORDS[kind], detail };
}

function detailOf(error: unknown): string {
  if (typeof error !== 'object' || error === null) return String(error);
  const named = error as Readonly<Record<string, unknown>>;
  const parts = ['name', 'message', 'reason']
    .map((key) => named[key])
    .flatMap((part) =>
      typeof part === 'string' ? [part] : part instanceof Error ? [part.name, part.message] : [],
    );
  return [...new Set(parts.filter((part) => part !== ''))].join(': ').slice(0, 300);
}
