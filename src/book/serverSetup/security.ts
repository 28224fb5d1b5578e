/** Who may read and add entries (members) and who may also replace the setup (admins) of a database. */
export interface Security {
  readonly members: Group;
  readonly admins: Group;
}

interface Group {
  readonly names: readonly string[];
  readonly roles: readonly string[];
}

/** The security object of a yard's database, on top of what stands there already: nobody loses a right by setting up
 *  again. A database without any member would be open to everybody, so it always has a role, `aftrun-<database>`. */
export function securityOf(
  database: string,
  { members, admins }: { readonly members: readonly string[]; readonly admins: readonly string[] },
  before: unknown = {},
): Security {
  const known = before as { readonly members?: Partial<Group>; readonly admins?: Partial<Group> };
  return {
    members: {
      names: merged(known.members?.names, members),
      roles: merged(known.members?.roles, [memberRole(database)]),
    },
    admins: {
      names: merged(known.admins?.names, admins),
      roles: merged(known.admins?.roles, []),
    },
  };
}

/** A user with this role is a member, whatever the name. */
export function memberRole(database: string): string {
  return `aftrun-${database}`;
}

function merged(before: readonly string[] | undefined, more: readonly string[]): readonly string[] {
  return [...new Set([...(before ?? []), ...more])];
}
