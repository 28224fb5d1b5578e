import type { ServerFailureKind } from './serverFailure.ts';

/** Pauses between tries of a server that cannot be reached, ms: it is level again soon after it is back. */
const PAUSES = [1_000, 2_000, 4_000];
const LONGEST = 6_000;
/** Pauses where somebody has to put something right there first; a server may shut out who tries too often. */
const SLOW_PAUSES = [1_000, 5_000, 10_000];
const SLOW_LONGEST = 30_000;
/** That share of a pause is left to chance, so that many tablets do not all come at once. */
const SPREAD = 0.25;

const FOR_A_PERSON: ReadonlySet<ServerFailureKind> = new Set([
  'certificate',
  'page',
  'password',
  'rights',
  'no database',
  'not set up',
  'no server',
]);

export interface PatienceOptions {
  readonly after: (milliseconds: number, call: () => void) => () => void;
  readonly random: (count: number) => Uint8Array;
}

/** Waits between tries, longer each time, until it is hurried. */
export class Patience {
  readonly #options: PatienceOptions;
  #tries = 0;
  #hurried = false;
  #wake: (() => void) | undefined;

  constructor(options: PatienceOptions) {
    this.#options = options;
  }

  /** A try begins: what hurried before it counts no more. */
  begin(): void {
    this.#hurried = false;
  }

  /** A try went well: the next pause is short again. */
  reset(): void {
    this.#tries = 0;
  }

  /** Ends the pause; one that is about to begin, too. */
  hurry(): void {
    this.#hurried = true;
    this.#wake?.();
  }

  /** Pauses after a try that failed. */
  async pause(kind: ServerFailureKind | undefined): Promise<void> {
    const slow = kind !== undefined && FOR_A_PERSON.has(kind);
    const [pauses, longest] = slow ? [SLOW_PAUSES, SLOW_LONGEST] : [PAUSES, LONGEST];
    const whole = pauses[this.#tries] ?? longest;
    this.#tries += 1;
    if (this.#hurried) return;
    const [chance] = this.#options.random(1);
    const milliseconds = whole * (1 - (SPREAD * chance) / 255);
    await new Promise<void>((resolve) => {
      const done = (): void => {
        callOff();
        this.#wake = undefined;
        resolve();
      };
      const callOff = this.#options.after(milliseconds, done);
      this.#wake = done;
    });
  }
}
