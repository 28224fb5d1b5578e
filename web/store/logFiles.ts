import { keptLogsOf } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { KeptFile } from './logJobs.ts';

/** The kept files that a survey's logs stand in, each once: one that holds several lines is one entry. `file`: a kept
 *  file of the hull, by the entry that keeps it and its name. Rejects where one is not to be had. */
export function logFilesOf(
  survey: Survey,
  file: (entry: string, name: string) => Promise<Blob>,
): Promise<readonly KeptFile[]> {
  const entries = new Map(keptLogsOf(survey).map((kept) => [kept.entry, kept]));
  return Promise.all(
    [...entries.values()].map(async ({ entry, name, sha256, given }) => ({
      entry,
      sha256,
      given,
      data: await file(entry, name),
    })),
  );
}
