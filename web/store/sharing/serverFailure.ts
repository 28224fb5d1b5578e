/** Why a server did not do what it was asked. */
export type ServerFailureKind =
  | 'offline'
  | 'unreachable'
  | 'refused'
  | 'certificate'
  | 'page'
  | 'password'
  | 'rights'
  | 'no database'
  | 'not set up'
  | 'no server'
  | 'device'
  | 'other';

const WORDS: Readonly<Record<ServerFailureKind, string>> = {
  offline: 'This device has no network.',
  unreachable: 'The server does not answer.',
  refused: 'The server refuses the connection: nothing is running at that address and port.',
  certificate:
    'The server does not answer, or its certificate is not trusted here. Open its address in a tab of its own to see which.',
  page: 'The server answers, but does not let this page ask it: the address of the app must be allowed there (CORS).',
  password: 'The server does not know this user and password.',
  rights: 'This user may not read or add to the database.',
  'no database': 'There is no such database on the server.',
  'not set up': 'The database is not set up for sharing yet: “aftrun server-setup” does that.',
  'no server': 'What answers there is no server of this kind.',
  device: 'The record on this device could not be read or written.',
  other: 'The server could not do what it was asked.',
};

/** A server that failed, in a sentence for the person. It never holds the password. */
export class ServerFailure extends Error {
  override readonly name = 'ServerFailure';
  constructor(
    readonly kind: ServerFailureKind,
    /** What was answered, in the server's words or the browser's. */
    readonly detail = '',
  ) {
    super(WORDS[kind]);
  }
}

/** What an error means that came while something was asked of the server. 401 and 403 are one: some servers tell
 *  somebody who may not that they are not known. */
export function serverFailureOf(error: unknown): ServerFailure {
  if (error instanceof ServerFailure) return error;
  const detail = detailOf(error);
  const status = statusOf(error);
  if (status === 401 || status === 403) return new ServerFailure('rights', detail);
  if (status === 404) return new ServerFailure('no database', detail);
  if (/quota|indexed_db|InvalidStateError/i.test(detail))
    return new ServerFailure('device', detail);
  if (isLate(error)) return new ServerFailure('unreachable', detail);
  const code = codeOf(error);
  if (code === 'ECONNREFUSED') return new ServerFailure('refused', code);
  if (/CERT|SELF_SIGNED|ERR_TLS|UNABLE_TO_VERIFY/.test(code)) {
    return new ServerFailure('certificate', code);
  }
  if (error instanceof TypeError || /fetch|network|socket/i.test(detail)) {
    return new ServerFailure('unreachable', code === '' ? detail : code);
  }
  return new ServerFailure('other', detail);
}

function isLate(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'TimeoutError';
}

function statusOf(error: unknown): unknown {
  return typeof error === 'object' && error !== null && 'status' in error
    ? error.status
    : undefined;
}

/** What lay under a refused connection, where the surroundings say; a browser does not. */
function codeOf(error: unknown): string {
  const cause: unknown = error instanceof Error ? error.cause : undefined;
  return typeof cause === 'object' && cause !== null && 'code' in cause ? String(cause.code) : '';
}

function detailOf(error: unknown): string {
  if (typeof error !== 'object' || error === null) return String(error).slice(0, 300);
  const named = error as Readonly<Record<string, unknown>>;
  return ['name', 'message', 'reason']
    .flatMap((key) => (typeof named[key] === 'string' ? [named[key]] : []))
    .filter((part, i, all) => part !== '' && all.indexOf(part) === i)
    .join(': ')
    .slice(0, 300);
}
