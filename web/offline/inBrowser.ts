import { Offline } from './offline.svelte.ts';

/** The app, of that version, kept on this device by this page's own worker. */
export function offlineInBrowser(version: string): Offline {
  return new Offline({
    version,
    secure: window.isSecureContext,
    workers: 'serviceWorker' in navigator ? navigator.serviceWorker : undefined,
    open: async () => {
      const { Workbox } = await import('workbox-window');
      return new Workbox(new URL('worker.js', document.baseURI).href);
    },
    reload: () => location.reload(),
  });
}
