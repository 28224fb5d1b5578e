import type { Workbox } from 'workbox-window';
import { describe, expect, test } from 'vitest';

import { isQuestion } from '../../../web/offline/messages.ts';
import { Offline, type OfflineSurroundings } from '../../../web/offline/offline.svelte.ts';

type Heard = (event: { readonly isUpdate?: boolean }) => void;

/** A browser with a worker that waits, or none; the worker answers as the real one does. */
function browser(
  given: { version?: string; windows?: number; waits?: boolean; active?: boolean } = {},
) {
  const heard = new Map<string, Heard>();
  const asked: string[] = [];
  let reloads = 0;
  const worker = {
    postMessage: (question: { ask: string }, ports: readonly MessagePort[]): void => {
      asked.push(question.ask);
      const answers: Record<string, unknown> = {
        version: given.version,
        windows: given.windows ?? 1,
        take: true,
      };
      ports[0]?.postMessage(answers[question.ask]);
    },
  };
  const around: OfflineSurroundings = {
    version: '6.0.0',
    secure: true,
    workers: {
      getRegistration: () =>
        Promise.resolve({
          active: given.active === true ? worker : null,
          waiting: given.waits === true ? worker : null,
        } as unknown as ServiceWorkerRegistration),
    },
    open: () =>
      Promise.resolve({
        addEventListener: (type: string, call: Heard) => heard.set(type, call),
        register: () => Promise.resolve(undefined),
        update: () => Promise.reject(new Error('no network')),
      } as unknown as Workbox),
    reload: () => (reloads += 1),
  };
  return {
    around,
    asked,
    say: (type: string, event: { isUpdate?: boolean } = {}) => heard.get(type)?.(event),
    reloads: () => reloads,
  };
}

describe('the app kept on the device', () => {
  test('says what is missing: https, or a browser that keeps apps', async () => {
    const { around } = browser();
    const insecure = new Offline({ ...around, secure: false });
    await insecure.begin();
    expect(insecure.state).toBe('insecure');
    const without = new Offline({ ...around, workers: undefined });
    await without.begin();
    expect(without.state).toBe('unsupported');
    // So does Chromium where a site's storage is switched off.
    const getRegistration = () => Promise.reject(new DOMException('denied', 'SecurityError'));
    const blocked = new Offline({ ...around, workers: { getRegistration } });
    await blocked.begin();
    expect(blocked.state).toBe('unsupported');
  });

  test('is being stored at first, and ready when the worker says so', async () => {
    const { around, say } = browser();
    const offline = new Offline(around);
    await offline.begin();
    expect(offline.state).toBe('storing');
    say('activated');
    expect(offline.state).toBe('ready');
  });

  test('is ready at once where a worker has it already, also without a network', async () => {
    const { around } = browser({ active: true });
    const offline = new Offline({ ...around, open: () => Promise.reject(new Error('no network')) });
    await offline.begin();
    expect(offline.state).toBe('ready');
  });

  test('could not be stored: failed, with the reason', async () => {
    const { around } = browser();
    const offline = new Offline({ ...around, open: () => Promise.reject(new Error('no room')) });
    await offline.begin();
    expect(offline.state).toBe('failed');
    expect(offline.problem).toBe('no room');
  });

  test('offers a newer version with its number and takes it only when asked to', async () => {
    const { around, say, asked, reloads } = browser({
      waits: true,
      active: true,
      version: '7.0.0',
    });
    const offline = new Offline(around);
    await offline.begin();
    say('waiting');
    await expect.poll(() => offline.update?.version).toBe('7.0.0');
    expect(asked).not.toContain('take');
    await offline.take();
    expect(asked).toContain('take');
    say('controlling', { isUpdate: true });
    say('controlling', { isUpdate: true });
    expect(reloads()).toBe(1);
  });

  test('is not replaced under another open tab', async () => {
    const { around, say, asked } = browser({ waits: true, active: true, windows: 2 });
    const offline = new Offline(around);
    await offline.begin();
    say('waiting');
    await offline.take();
    expect(asked).not.toContain('take');
    expect(offline.problem).toMatch(/another tab/);
  });

  test('does not load the page anew when the first worker takes it', async () => {
    const { around, say, reloads } = browser();
    const offline = new Offline(around);
    await offline.begin();
    say('controlling', { isUpdate: false });
    expect(reloads()).toBe(0);
  });

  test('looks for a newer version without a network and says nothing', async () => {
    const { around } = browser({ active: true });
    const offline = new Offline(around);
    await offline.begin();
    await expect(offline.look()).resolves.toBeUndefined();
  });
});

describe('a question to the worker', () => {
  test('is one of its three; anything else that reaches it is not answered', () => {
    expect(isQuestion({ ask: 'version' })).toBe(true);
    for (const other of [null, 'version', {}, { ask: 'toString' }, { ask: 1 }])
      expect(isQuestion(other)).toBe(false);
  });
});
