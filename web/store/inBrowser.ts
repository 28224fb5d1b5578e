import { IDB_PREFIX, pouchInBrowser } from './pouch.ts';
import { offlineInBrowser } from '../offline/inBrowser.ts';
import type { Offline } from '../offline/offline.svelte.ts';
import { Device } from './device.svelte.ts';
import { Persistence } from './persistence.svelte.ts';
import { rescue } from './rescue.ts';
import { Reserve } from './reserve.ts';
import { SharingDoor, SHARING_STORED_AT } from './sharing/door.svelte.ts';
import { SUMMARY_FORM } from './hullFacts.ts';
import { workOutAside } from './summaryClient.ts';
import type { Surroundings } from './surroundings.ts';
import { UnsavedShelf } from './unsavedShelf.ts';
import { Yard } from './yard.svelte.ts';

/** Everything that the screens need to know of this browser. */
export interface Store {
  readonly device: Device;
  readonly yard: Yard;
  readonly persistence: Persistence;
  readonly reserve: Reserve;
  readonly offline: Offline;
  readonly sharing: SharingDoor;
}

/** The store on this page's own storage, clock and randomness. `app`: version of the app. */
export function storeInBrowser(app: string): Store {
  const random = (count: number): Uint8Array => crypto.getRandomValues(new Uint8Array(count));
  const place = storageOf(window);
  const device = new Device(place, random, {
    unit: usualUnit(navigator.language),
  });
  const reserve = new Reserve(cachesOf(window), random);
  const persistence = new Persistence(supported(navigator, 'storage'));
  const around: Surroundings = {
    open: pouchInBrowser(),
    now: () => new Date(),
    random,
    after: (milliseconds, call) => {
      const timer = setTimeout(call, milliseconds);
      return () => clearTimeout(timer);
    },
    onVisible: (call) => {
      const heard = (): void => {
        if (document.visibilityState === 'visible') call();
      };
      document.addEventListener('visibilitychange', heard);
      // A page that comes back from where the browser had frozen it, which some phones tell in no other way.
      window.addEventListener('pageshow', heard);
      return () => {
        document.removeEventListener('visibilitychange', heard);
        window.removeEventListener('pageshow', heard);
      };
    },
    onLeaving: (call) => {
      const heard = (): void => {
        if (document.visibilityState === 'hidden') call();
      };
      document.addEventListener('visibilitychange', heard);
      window.addEventListener('pagehide', call);
      return () => {
        document.removeEventListener('visibilitychange', heard);
        window.removeEventListener('pagehide', call);
      };
    },
    unsaved: new UnsavedShelf(place),
    alone: async (name, work) => {
      const locks = supported(navigator, 'locks');
      await (locks === undefined ? work() : locks.request(`aftrun ${name}`, work));
    },
    databaseNames: async () => {
      const all = await supported(indexedDB, 'databases')?.call(indexedDB);
      return all?.flatMap(({ name }) =>
        name?.startsWith(IDB_PREFIX) === true ? [name.slice(IDB_PREFIX.length)] : [],
      );
    },
    freeReserve: () => reserve.free(),
    signature: () => ({ ...device.label, app }),
    owns: (name) => device.owns(name),
  };
  const yard: Yard = new Yard({
    around,
    engine: `${app}, form ${SUMMARY_FORM}`,
    workOut: workOutAside(around.after),
    rescue: async (hull) => {
      const found = await rescue(indexedDB, hull);
      if (!found.ok) throw new Error(`The record cannot be read: ${found.reason}.`);
      return found.text;
    },
    written: (hull) => sharing.written(hull),
    removing: (hull, name) => sharing.removing(hull, name),
  });
  const sharing: SharingDoor = new SharingDoor({
    place,
    load: async () => {
      const { sharingInBrowser } = await import('./sharing/inBrowser.ts');
      return sharingInBrowser({ place, around, yard: yard.forSharing() });
    },
  });
  void yard.ready.then(() => sharing.begin());
  window.addEventListener('storage', ({ key }) => {
    device.readAgain();
    if (key === SHARING_STORED_AT) void sharing.begin();
  });
  return { device, yard, persistence, reserve, offline: offlineInBrowser(app), sharing };
}

/** Inches where people grew up with them, until the person says otherwise. */
function usualUnit(language: string): 'mm' | 'in' {
  return /^en-(US|LR)\b/i.test(language) ? 'in' : 'mm';
}

/** Absent where the page may not use it, which some browsers say by throwing. */
function storageOf(page: Window): Storage | undefined {
  try {
    return page.localStorage;
  } catch {
    return undefined;
  }
}

function cachesOf(page: Window): CacheStorage | undefined {
  try {
    return 'caches' in page ? page.caches : undefined;
  } catch {
    return undefined;
  }
}

/** A part of the browser that its types promise and not every browser, or not every address, has. */
function supported<T, K extends keyof T>(of: T, name: K): T[K] | undefined {
  return of[name];
}
