const wrapped = new WeakSet<object>();

/** From now on every writing transaction of IndexedDB asks for strict durability: it is complete when the system has
 *  been told to write to the disk, not when the browser has taken it. The browser's default is relaxed, and PouchDB
 *  has no option for it. Asking twice changes nothing. */
export function strictDurability(prototype: IDBDatabase = IDBDatabase.prototype): void {
  if (wrapped.has(prototype)) return;
  wrapped.add(prototype);
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with the database as `this` below
  const begin = prototype.transaction;
  prototype.transaction = function (this: IDBDatabase, stores, mode, options) {
    return begin.call(
      this,
      stores,
      mode,
      mode === 'readwrite' ? { durability: 'strict', ...options } : options,
    );
  };
}
