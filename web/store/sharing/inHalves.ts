export interface HalvesOptions<T> {
  /** How many go at once, at most. */
  readonly atOnce: number;
  /** Does it with some of them. */
  readonly act: (ids: readonly string[]) => Promise<T>;
  /** What to say of one with which it cannot be done. */
  readonly without: (id: string, error: unknown) => T;
  /** Rejects where what failed has nothing to do with a document, as where nobody answers any more. */
  readonly answers: (error: unknown) => Promise<void>;
  readonly signal: AbortSignal;
}

/** Does something with documents where one of them may stop it: as many at once as go, and where that fails while there
 *  is an answer, each half by itself, until what stops it stands alone. A network that was away for a moment fails
 *  whatever was under way, so one is left out only once it has failed alone twice; and the others lose little time: one
 *  after another, 2,000 entries would take five minutes. Rejects where nobody answers, and when it is called off, since
 *  the rest is then not done. */
export async function inHalves<T>(
  ids: readonly string[],
  { atOnce, act, without, answers, signal }: HalvesOptions<T>,
): Promise<readonly T[]> {
  const done: T[] = [];
  const left: { readonly some: readonly string[]; readonly failed: boolean }[] = [];
  for (let from = 0; from < ids.length; from += atOnce) {
    left.push({ some: ids.slice(from, from + atOnce), failed: false });
  }
  for (let next = left.shift(); next !== undefined; next = left.shift()) {
    const { some, failed } = next;
    try {
      signal.throwIfAborted();
      done.push(await act(some));
    } catch (error) {
      signal.throwIfAborted();
      await answers(error);
      if (some.length > 1) {
        const middle = Math.ceil(some.length / 2);
        const halves = [some.slice(0, middle), some.slice(middle)];
        left.unshift(...halves.map((half) => ({ some: half, failed: false })));
      } else if (failed) {
        done.push(without(some[0], error));
      } else {
        left.unshift({ some, failed: true });
      }
    }
  }
  return done;
}
