const wrapped = new WeakSet<object>();

/** From now on a database of IndexedDB that is refused is a request that fails. Where a page may keep nothing, `open` throws
 *  instead (Indexed Database API 3.0, `open()`: SecurityError), and PouchDB, which opens one database after another, would wait behind it
 *  for ever. Asking twice changes nothing. */
export function refusedLater(prototype: IDBFactory = IDBFactory.prototype): void {
  if (wrapped.has(prototype)) return;
  wrapped.add(prototype);
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with the factory as `this` below
  const { open } = prototype;
  prototype.open = function (this: IDBFactory, name, version) {
    try {
      return open.call(this, name, version);
    } catch (error) {
      return new Refused(error) as unknown as IDBOpenDBRequest;
    }
  };
}

/** As much of a request as is looked at when it fails. */
class Refused extends EventTarget {
  readonly error: Error;
  onerror: ((event: Event) => void) | null = null;

  constructor(reason: unknown) {
    super();
    // PouchDB passes on the message alone, and what the browser calls it tells what it means.
    this.error =
      reason instanceof Error
        ? new Error(`${reason.name}: ${reason.message}`)
        : new Error(String(reason));
    this.addEventListener('error', (event) => this.onerror?.(event));
    queueMicrotask(() => this.dispatchEvent(new Event('error')));
  }
}
