import { breathe } from './breathe.ts';

const waiting: (() => void)[] = [];
let calling = false;

/** Calls one after another, each in a task of its own, so that the page answers between them. Gives back how to call it
 *  off. */
export function inTurn(call: () => void): () => void {
  waiting.push(call);
  if (!calling) void callAll();
  return () => {
    const at = waiting.indexOf(call);
    if (at >= 0) waiting.splice(at, 1);
  };
}

async function callAll(): Promise<void> {
  calling = true;
  while (waiting.length > 0) {
    await breathe();
    waiting.shift()?.();
  }
  calling = false;
}
