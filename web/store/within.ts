import { NoAnswer } from './failure.ts';
import type { Surroundings } from './surroundings.ts';

/** An answer, or a refusal with `NoAnswer` where it has not come after some milliseconds. */
export async function within<T>(
  milliseconds: number,
  answer: Promise<T>,
  after: Surroundings['after'],
): Promise<T> {
  let callOff = (): void => undefined;
  const late = new Promise<never>((_, reject) => {
    callOff = after(milliseconds, () =>
      reject(new NoAnswer(`no answer within ${milliseconds / 1000} s`)),
    );
  });
  return Promise.race([answer, late]).finally(() => callOff());
}
