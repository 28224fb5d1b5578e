import { describe, expect, test } from 'vitest';

import {
  BACKUP_EVERY,
  backupName,
  backupStands,
  behindWords,
  comparedWords,
  restoredWords,
  writtenWords,
} from '../../../web/views/backupView.ts';

const DAY = 86_400_000;
const now = new Date('2026-05-04T09:30:00Z');
const ago = (days: number) => new Date(now.getTime() - days * DAY).toISOString();
const hull = (key: string, entries: number, invented = false) => ({
  hull: key,
  name: `Hull ${key}`,
  invented,
  entries,
});
const stands = (
  hulls: Parameters<typeof backupStands>[0],
  noted: Parameters<typeof backupStands>[1],
  days = BACKUP_EVERY,
) => backupStands(hulls, noted, { now, days });

describe('the reminder of a backup', () => {
  test('comes when something was entered after a backup that is older than the yard allows', () => {
    const noted = { a: { at: ago(8), entries: 5 } };
    expect(stands([hull('a', 9)], noted, 7)).toEqual({
      last: ago(8),
      behind: [{ hull: 'a', name: 'Hull a', entries: 4, last: ago(8) }],
      remind: true,
    });
    expect(stands([hull('a', 9)], noted, 9).remind).toBe(false);
  });

  test('never comes while everything is in the backup, however old that is', () => {
    const noted = { a: { at: ago(800), entries: 9 } };
    expect(stands([hull('a', 9)], noted)).toEqual({ last: ago(800), behind: [], remind: false });
  });

  test('gives a hull that was never backed up the same time from when it was first seen', () => {
    const since = (days: number) => stands([hull('a', 9)], { a: { seen: ago(days) } });
    expect(since(0.5)).toMatchObject({ behind: [{ entries: 9 }], remind: false });
    expect(since(1.5)).toMatchObject({ behind: [{ entries: 9 }], remind: true });
    expect(since(1.5)).not.toHaveProperty('last');
    expect(stands([hull('a', 9)], {}).remind).toBe(false);
  });

  test('leaves the demo out, and never comes where the yard wants none', () => {
    const noted = { a: { seen: ago(30) } };
    expect(stands([hull('a', 9, true)], noted)).toEqual({ behind: [], remind: false });
    expect(stands([hull('a', 9)], noted, 0)).toMatchObject({ remind: false });
    expect(stands([hull('toString', 9)], {})).toMatchObject({ remind: false });
  });

  test('says what is in no backup', () => {
    const { behind } = stands([hull('a', 9), hull('b', 1200)], {});
    expect(behindWords(behind)).toBe('1\u202f209 entries of 2 hulls are in no backup.');
    expect(behindWords(behind.slice(0, 1))).toBe('9 entries of Hull a are in no backup.');
    expect(behindWords([{ hull: 'a', name: 'A', entries: 1 }])).toBe(
      '1 entry of A is in no backup.',
    );
  });
});

describe('a backup in words', () => {
  test('says what the file holds', () => {
    expect(writtenWords({ of: 1, entries: 1, files: 1, written: 1_200 })).toBe(
      '1 hull, 1 entry, 1 photo or log file; 2 kB.',
    );
    expect(writtenWords({ of: 12, entries: 1_800, files: 0, written: 64_100_000 })).toBe(
      '12 hulls, 1\u202f800 entries, 0 photos and log files; 65 MB.',
    );
  });

  test('is named by the day, and by the hull where it is of one', () => {
    expect(backupName(undefined, '2026-05-04')).toBe('aftrun backup 2026-05-04.txt');
    expect(backupName('Knot', '2026-05-04')).toBe('Knot entries 2026-05-04.txt');
  });

  test('says what restoring would do, and nothing of what is not there', () => {
    const none = { isHere: true, fresh: 0, same: 0, disputed: 0, struck: 0 };
    const noFiles = { freshFiles: 0, sameFiles: 0, otherFiles: 0, looseFiles: 0 };
    expect(comparedWords({ ...none, ...noFiles })).toEqual(['Nothing new.']);
    const all = comparedWords({
      isHere: true,
      fresh: 2,
      same: 3,
      disputed: 1,
      struck: 1,
      freshFiles: 1,
      sameFiles: 2,
      otherFiles: 1,
      looseFiles: 1,
    });
    expect(all).toEqual([
      'New: 2 entries and 1 file.',
      'The same here: 3 entries and 2 files.',
      expect.stringMatching(/^Another content here: 1 entry\. Both are kept/),
      'Stands here, and will be struck: 1 entry.',
      expect.stringMatching(/^Another content here: 1 file\. Both are kept/),
      expect.stringMatching(/^Cannot be restored: 1 file/),
    ]);
  });

  test('says what was restored', () => {
    expect(restoredWords({ fresh: 0, files: 0, beside: 0, loose: 0 })).toBe(
      'everything was here already.',
    );
    expect(restoredWords({ fresh: 1, files: 2, beside: 1, loose: 1 })).toBe(
      '1 entry and 2 files restored. 1 of them had another content here: both are kept. 1 could not be kept: their entries are not here.',
    );
  });
});
