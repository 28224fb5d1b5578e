import type { Workbox } from 'workbox-window';

import type { Answers } from './messages.ts';

/** Whether the app opens without a network: `insecure` over http from another machine, where browsers refuse it. */
export type OfflineState = 'asking' | 'storing' | 'ready' | 'insecure' | 'unsupported' | 'failed';

export interface Update {
  /** Version that waits; absent where it does not say. */
  readonly version: string | undefined;
}

/** What `Offline` needs of the browser. */
export interface OfflineSurroundings {
  /** Version of the app that runs. */
  readonly version: string;
  readonly secure: boolean;
  /** Absent where the browser has no service workers, as in some private windows. */
  readonly workers: Pick<ServiceWorkerContainer, 'getRegistration'> | undefined;
  /** A worker at the app's own address; loads what talks to it. */
  readonly open: () => Promise<Workbox>;
  readonly reload: () => void;
}

/** Keeps the built app on the device and tells of a newer one. An update waits until the person takes it: it is never
 *  taken by itself while the app is open. */
export class Offline {
  state = $state.raw<OfflineState>('asking');
  /** A newer version that waits. */
  update = $state.raw<Update | undefined>();
  /** Why the update was not taken, or the app not kept. */
  problem = $state.raw('');

  readonly version: string;
  readonly #around: OfflineSurroundings;
  #workbox: Workbox | undefined;

  constructor(around: OfflineSurroundings) {
    this.#around = around;
    this.version = around.version;
  }

  /** Begins; once, after the app is shown. */
  async begin(): Promise<void> {
    const { secure, workers, open, reload } = this.#around;
    if (workers === undefined || !secure) {
      this.state = secure ? 'unsupported' : 'insecure';
      return;
    }
    let kept;
    try {
      kept = await workers.getRegistration();
    } catch {
      // Storage is switched off for this address.
      this.state = 'unsupported';
      return;
    }
    try {
      this.state = kept?.active ? 'ready' : 'storing';
      const workbox = await open();
      this.#workbox = workbox;
      let taking = false;
      workbox.addEventListener('activated', () => (this.state = 'ready'));
      workbox.addEventListener('waiting', () => void this.#tell());
      workbox.addEventListener('controlling', ({ isUpdate }) => {
        // The first worker ever takes a page that runs already: nothing to load anew.
        if (isUpdate === true && !taking) {
          taking = true;
          reload();
        }
      });
      await workbox.register({ immediate: true });
    } catch (error) {
      if (this.state === 'storing') this.state = 'failed';
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  /** Looks for a newer version now. */
  async look(): Promise<void> {
    try {
      await this.#workbox?.update();
    } catch {
      // No network: it is looked for again at the next start.
    }
  }

  /** Takes the version that waits and loads the page anew. With another tab open it is not taken: that tab's own files
   *  would be gone under it. */
  async take(): Promise<void> {
    this.problem = '';
    const registration = await this.#around.workers?.getRegistration();
    const waiting = registration?.waiting;
    if (waiting === undefined || waiting === null) {
      this.update = undefined;
      return;
    }
    const windows = await ask(waiting, 'windows');
    if (windows !== undefined && windows > 1) {
      this.problem =
        'aftrun is open in another tab or window. Close it first, then take the new version.';
      return;
    }
    await ask(waiting, 'take');
  }

  async #tell(): Promise<void> {
    const registration = await this.#around.workers?.getRegistration();
    const waiting = registration?.waiting;
    if (waiting === undefined || waiting === null) return;
    this.update = { version: await ask(waiting, 'version') };
  }
}

const PATIENCE = 2_000;

/** A worker's answer; absent where none comes in two seconds. */
async function ask<K extends keyof Answers>(
  worker: Pick<ServiceWorker, 'postMessage'>,
  question: K,
): Promise<Awaited<ReturnType<Answers[K]>> | undefined> {
  const { port1, port2 } = new MessageChannel();
  try {
    return await new Promise<Awaited<ReturnType<Answers[K]>> | undefined>((resolve) => {
      const timer = setTimeout(() => resolve(undefined), PATIENCE);
      port1.onmessage = ({ data }: MessageEvent<Awaited<ReturnType<Answers[K]>>>) => {
        clearTimeout(timer);
        resolve(data);
      };
      worker.postMessage({ ask: question }, [port2]);
    });
  } finally {
    port1.close();
  }
}
