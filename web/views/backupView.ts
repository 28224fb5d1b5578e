import { countText } from './countText.ts';

/** Days after which a reminder comes, where the yard does not say. A house default. */
export const BACKUP_EVERY = 1;
export const BACKUP_DAYS_MOST = 365;

/** A hull on this device, as far as its backup goes. */
export interface HullStands {
  readonly hull: string;
  readonly name?: string;
  readonly invented: boolean;
  readonly entries: number;
}

/** What is known of a hull's last backup; `seen`: since when it is known to have none. */
export interface HullNoted {
  readonly at?: string;
  readonly entries?: number;
  readonly seen?: string;
}

/** A hull with entries that are in no backup of this device. */
export interface Behind {
  readonly hull: string;
  readonly name: string;
  /** Entries since its last backup; all of them where it has none. */
  readonly entries: number;
  /** When it was backed up last; absent where it never was. */
  readonly last?: string;
}

export interface BackupStands {
  /** When anything was backed up last on this device. */
  readonly last?: string;
  readonly behind: readonly Behind[];
  /** Whether something has been without a backup for longer than the yard allows. */
  readonly remind: boolean;
}

const DAY = 86_400_000;

/** How the backup of a yard, or of one hull, stands. A hull that has entries beyond its last backup is behind; it is
 *  time to remind when that backup, or the moment from which it is known to have none, is older than `days`. Invented
 *  hulls are in no backup. `days` 0: never remind. */
export function backupStands(
  hulls: readonly HullStands[],
  noted: Readonly<Record<string, HullNoted>>,
  { now, days }: { readonly now: Date; readonly days: number },
): BackupStands {
  const behind: Behind[] = [];
  let remind = false;
  let last: string | undefined;
  for (const { hull, name, invented, entries } of hulls) {
    if (invented) continue;
    const known = Object.hasOwn(noted, hull) ? noted[hull] : {};
    if (known.at !== undefined && (last === undefined || known.at > last)) last = known.at;
    const since = known.entries === undefined ? entries : entries - known.entries;
    if (since <= 0) continue;
    behind.push({
      hull,
      name: name ?? hull,
      entries: since,
      ...(known.at !== undefined && { last: known.at }),
    });
    const from = Date.parse(known.at ?? known.seen ?? '');
    if (days > 0 && now.getTime() - from > days * DAY) remind = true;
  }
  return { ...(last !== undefined && { last }), behind, remind };
}

/** The reminder in a sentence: what is in no backup. */
export function behindWords(behind: readonly Behind[]): string {
  const entries = behind.reduce((sum, each) => sum + each.entries, 0);
  const [first, ...others] = behind;
  const what = entries === 1 ? '1 entry' : `${countText(entries)} entries`;
  const of = others.length === 0 ? `of ${first.name}` : `of ${countText(behind.length)} hulls`;
  return `${what} ${of} ${entries === 1 ? 'is' : 'are'} in no backup.`;
}

/** The name of a backup's file. `hull`: its name; absent for the whole yard. */
export function backupName(hull: string | undefined, day: string): string {
  return hull === undefined ? `aftrun backup ${day}.txt` : `${hull} entries ${day}.txt`;
}

interface Written {
  readonly of: number;
  readonly entries: number;
  readonly files: number;
  readonly written: number;
}

/** What a backup holds, in a sentence. */
export function writtenWords({ of, entries, files, written }: Written): string {
  const counted = (count: number, one: string, many: string) =>
    `${countText(count)} ${count === 1 ? one : many}`;
  const size =
    written < 1_000_000
      ? `${countText(Math.ceil(written / 1000))} kB`
      : `${countText(Math.ceil(written / 1_000_000))} MB`;
  const parts = [
    counted(of, 'hull', 'hulls'),
    counted(entries, 'entry', 'entries'),
    counted(files, 'photo or log file', 'photos and log files'),
  ];
  return `${parts.join(', ')}; ${size}.`;
}

/** What became of a backup, no more than is known. */
export function madeWords(state: 'checked' | 'handed over' | 'ready'): string {
  switch (state) {
    case 'checked':
      return 'Read back from the file, and found whole.';
    case 'handed over':
      return 'Handed over. Look whether it is there: the browser does not say.';
    case 'ready':
      return 'It is made, and not handed over yet.';
  }
}

interface Compared {
  readonly isHere: boolean;
  readonly fresh: number;
  readonly same: number;
  readonly disputed: number;
  readonly struck: number;
  readonly freshFiles: number;
  readonly sameFiles: number;
  readonly otherFiles: number;
  readonly looseFiles: number;
}

/** What restoring one hull would do, a statement each; what is none is not said. */
export function comparedWords(hull: Compared): readonly string[] {
  const entries = (count: number) => `${countText(count)} ${count === 1 ? 'entry' : 'entries'}`;
  const files = (count: number) => `${countText(count)} ${count === 1 ? 'file' : 'files'}`;
  const { fresh, same, disputed, struck, freshFiles, sameFiles, otherFiles, looseFiles } = hull;
  return [
    fresh > 0 || freshFiles > 0
      ? `New: ${entries(fresh)}${freshFiles > 0 ? ` and ${files(freshFiles)}` : ''}.`
      : 'Nothing new.',
    ...(same > 0 || sameFiles > 0
      ? [`The same here: ${entries(same)}${sameFiles > 0 ? ` and ${files(sameFiles)}` : ''}.`]
      : []),
    ...(disputed > 0
      ? [
          `Another content here: ${entries(disputed)}. Both are kept, and neither counts until a person has dealt with it.`,
        ]
      : []),
    ...(struck > 0 ? [`Stands here, and will be struck: ${entries(struck)}.`] : []),
    ...(otherFiles > 0
      ? [`Another content here: ${files(otherFiles)}. Both are kept, theirs beside.`]
      : []),
    ...(looseFiles > 0
      ? [`Cannot be restored: ${files(looseFiles)} whose entry is neither here nor in the backup.`]
      : []),
  ];
}

/** What was restored of a hull, in a sentence. */
export function restoredWords(done: {
  readonly fresh: number;
  readonly files: number;
  readonly beside: number;
  readonly loose: number;
}): string {
  const { fresh, files, beside, loose } = done;
  if (fresh === 0 && files === 0 && loose === 0) return 'everything was here already.';
  const entries = `${countText(fresh)} ${fresh === 1 ? 'entry' : 'entries'}`;
  const kept = `${countText(files)} ${files === 1 ? 'file' : 'files'}`;
  const lost =
    loose === 0 ? '' : ` ${countText(loose)} could not be kept: their entries are not here.`;
  const twice =
    beside === 0 ? '' : ` ${countText(beside)} of them had another content here: both are kept.`;
  return `${entries} and ${kept} restored.${twice}${lost}`;
}
