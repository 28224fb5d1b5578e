/** Does something that can be called off, within a time and while nobody else calls it off. Written out rather than with
 *  `AbortSignal.any` and `AbortSignal.timeout`, which older tablets have not, and which may be swept up as garbage
 *  before their time is over. */
export async function limited<T>(
  milliseconds: number,
  outer: AbortSignal | null | undefined,
  run: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  const own = new AbortController();
  const late = (): void =>
    own.abort(new DOMException(`no answer within ${milliseconds / 1000} s`, 'TimeoutError'));
  const callOff = (): void => own.abort(outer?.reason);
  const timer = setTimeout(late, milliseconds);
  if (outer?.aborted === true) callOff();
  outer?.addEventListener('abort', callOff);
  try {
    return await run(own.signal);
  } finally {
    clearTimeout(timer);
    outer?.removeEventListener('abort', callOff);
  }
}
