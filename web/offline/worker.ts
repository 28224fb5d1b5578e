import {
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  precacheAndRoute,
} from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

import { isQuestion, type Answers } from './messages.ts';

/** What this file uses of a service worker's surroundings; the types of a page and of a worker exclude each other. */
interface Surroundings {
  readonly __WB_MANIFEST: { readonly url: string; readonly revision: string | null }[];
  readonly clients: {
    matchAll(query: { type: 'window'; includeUncontrolled: true }): Promise<readonly unknown[]>;
  };
  addEventListener(type: 'message', heard: (event: ExtendableMessage) => void): void;
  skipWaiting(): Promise<void>;
}
interface ExtendableMessage extends MessageEvent<unknown> {
  waitUntil(work: Promise<unknown>): void;
}
declare const self: Surroundings;

// Every built file, so that a cold start without a network has the whole app; nothing else is ever kept or fetched.
precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL('index.html')));

const answers: Answers = {
  version: () => Promise.resolve(APP_VERSION),
  windows: async () =>
    (await self.clients.matchAll({ type: 'window', includeUncontrolled: true })).length,
  take: async () => {
    await self.skipWaiting();
    return true;
  },
};

self.addEventListener('message', (event) => {
  const { data } = event;
  if (!isQuestion(data)) return;
  event.waitUntil(answers[data.ask]().then((answer) => event.ports[0]?.postMessage(answer)));
});
