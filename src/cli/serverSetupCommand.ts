import { databaseAddress, isDatabaseName, readServer } from '../book/serverSetup/address.ts';
import { memberRole } from '../book/serverSetup/security.ts';
import { askHidden } from './askHidden.ts';
import { parsedArguments, refused, type Refused } from './parsedArguments.ts';
import { setUpServer, type SetupStep } from './setUpServer.ts';
import { complain } from './surveyFile.ts';

const OPTIONS = {
  admin: { type: 'string' },
  members: { type: 'string' },
  admins: { type: 'string' },
} as const;

/** The variable that the admin's password may come in; otherwise it is asked for and not shown. */
export const PASSWORD_VARIABLE = 'AFTRUN_SERVER_PASSWORD';

/** `aftrun server-setup URL`: makes a database on a server of the CouchDB protocol fit to share a yard's record. It may
 *  be run again: what stands is left or brought up to date. Exit status 0, 1 where the server did not do it, or 2 for
 *  wrong arguments. */
export async function serverSetupCommand(args: readonly string[]): Promise<number> {
  const read = readSetupArguments(args);
  if (!read.ok) {
    complain(`aftrun server-setup: ${read.message}`);
    return 2;
  }
  const { server, database, admin, members, admins } = read;
  const password =
    process.env[PASSWORD_VARIABLE] ?? (await askHidden(`Password of ${admin} on ${server}: `));
  if (password === undefined) {
    complain(`aftrun server-setup: no password; give it in ${PASSWORD_VARIABLE} or at a terminal`);
    return 2;
  }
  const done = await setUpServer({
    address: databaseAddress(server, database),
    database,
    user: admin,
    password,
    members,
    admins,
    fetch,
  });
  for (const step of done.steps) process.stdout.write(`${wordsOf(step)}\n`);
  if (!done.ok) {
    complain(`aftrun server-setup: ${done.reason}`);
    return 1;
  }
  const who = [...members, `any user with the role ${memberRole(database)}`].join(', ');
  process.stdout.write(
    `Members: ${who}. Make their users on the server; tablets sign in as them.\n`,
  );
  return 0;
}

function wordsOf({ what, how }: SetupStep): string {
  return `${what}: ${how}`;
}

type SetupArguments =
  | {
      readonly ok: true;
      readonly server: string;
      readonly database: string;
      readonly admin: string;
      readonly members: readonly string[];
      readonly admins: readonly string[];
    }
  | Refused;

function readSetupArguments(args: readonly string[]): SetupArguments {
  const parsed = parsedArguments(args, OPTIONS);
  if (!parsed.ok) return parsed;
  const [url, ...more] = parsed.files;
  const usage = 'aftrun server-setup https://server.example:6984/yard --admin NAME';
  if (url === undefined || more.length > 0) return refused(`one address is expected: ${usage}`);
  const read = readServer(url);
  if (!read.ok) return refused(`found '${withoutName(url)}', expected ${read.expected}`);
  const cut = read.server.lastIndexOf('/');
  const database = decodeURIComponent(read.server.slice(cut + 1));
  const server = read.server.slice(0, cut);
  if (server.endsWith('/') || !isDatabaseName(database)) {
    return refused(`the address is to end in the name of a database: ${usage}`);
  }
  const { admin, members, admins } = parsed.values;
  if (admin === undefined)
    return refused(`--admin: the name of a server admin is expected: ${usage}`);
  return { ok: true, server, database, admin, members: listed(members), admins: listed(admins) };
}

/** An address may hold a password, which is not to stand on a screen. */
function withoutName(url: string): string {
  return url.replace(/\/\/[^/]*@/, '//…@');
}

function listed(text: string | undefined): readonly string[] {
  return (text ?? '').split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()]));
}
