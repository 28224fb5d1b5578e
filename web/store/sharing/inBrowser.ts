import { pouchOverHttp } from '../pouch.ts';
import type { Surroundings } from '../surroundings.ts';
import type { YardForSharing } from '../yard.svelte.ts';
import type { SharingDoorOptions } from './door.svelte.ts';
import { Remote } from './remote.ts';
import { keepSharing, readSharing, withoutHull, type SharingSettings } from './settings.ts';
import { Sharing, type Told } from './sharing.svelte.ts';

export interface SharingInBrowser {
  readonly place: SharingDoorOptions['place'];
  readonly around: Surroundings;
  readonly yard: YardForSharing;
}

/** Sharing on this page's own network and storage. */
export function sharingInBrowser({
  place,
  around,
  yard,
}: SharingInBrowser): Awaited<ReturnType<SharingDoorOptions['load']>> {
  return {
    settings: () => readSharing(place),
    keep: (settings) => keepSharing(place, settings),
    withoutHull,
    start: (settings) => {
      const channel = new BroadcastChannel('aftrun-sharing');
      const sharing = new Sharing({
        settings,
        remote: remoteInBrowser(settings),
        around,
        ...yard,
        tell: (told) => channel.postMessage(told),
        ended: () => channel.close(),
      });
      channel.addEventListener('message', ({ data }: MessageEvent<Told>) => sharing.heard(data));
      window.addEventListener('online', () => sharing.again());
      return sharing;
    },
  };
}

/** A server, for a test of the connection too. */
export function remoteInBrowser(settings: SharingSettings): Remote {
  return new Remote({
    settings,
    fetch: (url, options) => fetch(url, options),
    open: pouchOverHttp,
    online: () => navigator.onLine,
  });
}
