import { BackupLog } from './backups.svelte.ts';

/** What this browser knows of its backups; one for the page. */
export const backupLog = new BackupLog(storage());

window.addEventListener('storage', () => backupLog.readAgain());

function storage(): Storage | undefined {
  try {
    return window.localStorage;
  } catch {
    return undefined;
  }
}
