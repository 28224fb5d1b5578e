/** What a page asks of the worker that serves it, or of the one that waits to. */
export interface Answers {
  /** Version of the app that the worker holds. */
  version(): Promise<string>;
  /** How many windows and tabs show the app. */
  windows(): Promise<number>;
  /** Takes over from the worker that serves now. */
  take(): Promise<true>;
}

export interface Question {
  readonly ask: keyof Answers;
}

const ASKED: readonly unknown[] = ['version', 'windows', 'take'] satisfies (keyof Answers)[];

export function isQuestion(data: unknown): data is Question {
  return typeof data === 'object' && data !== null && 'ask' in data && ASKED.includes(data.ask);
}
