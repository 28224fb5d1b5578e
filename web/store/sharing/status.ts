import type { Denied, Odd } from './exchange.ts';
import type { ServerFailureKind } from './serverFailure.ts';

/** How the exchange with the server stands. Plain, so that one tab can tell the others. */
export interface SharingStatus {
  /** `elsewhere`: another tab of this browser does it, and has not told yet how it stands. */
  readonly at: 'elsewhere' | 'starting' | 'exchanging' | 'idle' | 'failed' | 'stopped';
  /** When device and server last had the same, ISO 8601; absent where that was never so. */
  readonly lastExchange?: string;
  /** Stands until an exchange has gone well again. */
  readonly failure?: {
    readonly kind: ServerFailureKind;
    readonly words: string;
    readonly detail: string;
    readonly at: string;
  };
  /** Entries of this device that the server has not, as far as is known, without those that it refused. */
  readonly waiting: number;
  /** Of which hulls they are; without those of which none waits. */
  readonly waitingOf: Readonly<Record<string, number>>;
  readonly denied: readonly Denied[];
  readonly odd: readonly Odd[];
  /** Documents on the server that are no entries of any hull; they are left there. */
  readonly foreign: number;
}

export const NOT_STARTED: SharingStatus = {
  at: 'elsewhere',
  waiting: 0,
  waitingOf: {},
  denied: [],
  odd: [],
  foreign: 0,
};
