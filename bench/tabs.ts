import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { bookOf } from '../src/book/book.ts';
import type { Entry } from '../src/book/entry.ts';
import { entryId } from '../src/book/id.ts';
import { writeEntryFile } from '../src/book/writeEntryFile.ts';
import { draftOf, stampAll } from '../src/survey/kinds/draft.ts';
import { begin, deviceOf } from '../test/browser/surveyDriver.ts';
import { QUIET, served } from './served.ts';

/** Two pages of one browser type readings of one survey into the built app at once, each on lines of its own; when the last
 *  is typed it is looked how long it takes until both screens say the same, and whether every reading is there.
 *  `npm run trial:tabs [-- READINGS]`; 500 unless said otherwise. Exit status 1 where one is missing, or where the
 *  screens do not say the same within ten seconds. */
const READINGS = Number(process.argv[2] ?? '500');
const STATIONS = 25;
const LINES = Math.max(2, 2 * Math.ceil(READINGS / STATIONS / 2));
const HULL = 'tw0tabshv111';
const AIM = 1000;

const print = (line: string): void => void process.stdout.write(`${line}\n`);

/** An invented hull with as many lines as it takes. */
function hullFile(): string {
  const drafts = [
    draftOf('hull', { name: 'Redshank (invented)', invented: true }),
    ...Array.from({ length: LINES }, (_, nth) =>
      draftOf('line', {
        name: `P${50 * (nth + 1)}mm`,
        side: 'port',
        offset: { mm: 50 * (nth + 1), text: `${50 * (nth + 1)} mm` },
      }),
    ),
  ];
  const at = Date.UTC(2026, 5, 1);
  const ids = drafts.map((_, nth) =>
    entryId({ hull: HULL, survey: '0', time: at + nth, random: new Uint8Array(10) }),
  );
  const signed = { by: 'A. Tester', device: 'Tablet', app: 'trial' };
  const entries: readonly Entry[] = stampAll(drafts, {
    ids,
    at: new Date(at).toISOString(),
    ...signed,
  });
  return writeEntryFile(bookOf(entries));
}

/** What a screen says of every line: how many of its stations were read. */
const said = (page: Page): Promise<string> =>
  page.getByRole('navigation', { name: 'Lines' }).innerText();

/** Types lines from the one chosen on: digits and Enter; one more Enter goes to the next line. */
async function type(page: Page, lines: number, from: number): Promise<void> {
  for (let line = 0; line < lines; line += 1) {
    for (let station = 0; station < STATIONS; station += 1) {
      await page.keyboard.type(String((from + line + station) % 20));
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: /^End of / }).waitFor();
    if (line < lines - 1) await page.keyboard.press('Enter');
  }
}

const profile = mkdtempSync(join(tmpdir(), 'aftrun-tabs-'));
const { address, executablePath, close } = await served();
const context = await chromium.launchPersistentContext(profile, {
  executablePath,
  args: [...QUIET],
  viewport: { width: 820, height: 1180 },
  serviceWorkers: 'block',
});
try {
  await deviceOf(context, 'mm');
  const one = await context.newPage();
  one.setDefaultTimeout(120_000);
  await one.goto(address);
  await one.getByText('Take in an entry file').click();
  await one
    .getByLabel(/^Entry files of hulls/)
    .setInputFiles({ name: 'hull.txt', mimeType: 'text/plain', buffer: Buffer.from(hullFile()) });
  await one.getByRole('button', { name: 'Take in', exact: true }).click();
  await one.getByText(/\d+ new, 0 already/).waitFor();
  await one.goto(`${address}#/hull/${HULL}`);
  await one.getByRole('button', { name: 'New survey' }).click();
  await one.getByRole('heading', { name: 'Before anyone goes under' }).waitFor();
  await begin(one);
  await one.getByRole('button', { name: 'Stations…' }).click();
  const stations = Array.from({ length: STATIONS }, (_, nth) => 60 * nth).join(', ');
  await one.getByLabel(/^Stations of this survey/).fill(stations);
  await one.getByRole('button', { name: 'Use these stations' }).click();
  await one.waitForFunction(
    (count) => document.querySelectorAll('tr[data-state]').length === count,
    STATIONS,
  );
  // A window of its own, so that both are seen: a browser slows a page down that nobody sees.
  const opening = context.waitForEvent('page');
  await one.evaluate(
    (url) => void window.open(url, '_blank', 'popup,width=820,height=1180'),
    one.url(),
  );
  const other = await opening;
  other.setDefaultTimeout(120_000);
  await other.getByRole('table').waitFor();
  await other
    .getByRole('navigation', { name: 'Lines' })
    .getByRole('button', { name: `P${50 * (LINES / 2 + 1)}mm` })
    .click();
  for (const page of [one, other]) await page.locator('tr.current input').focus();

  const began = performance.now();
  await Promise.all([type(one, LINES / 2, 0), type(other, LINES / 2, 7)]);
  const typed = performance.now();
  let agreed = '';
  while (performance.now() - typed < 10 * AIM) {
    const [here, there] = await Promise.all([said(one), said(other)]);
    if (here === there) {
      agreed = here;
      break;
    }
  }
  const level = performance.now() - typed;
  const all = LINES * STATIONS;
  print(`${all} readings typed in two tabs in ${((typed - began) / 1000).toFixed(1)} s`);
  print(
    agreed === ''
      ? 'the screens did not come to say the same within ten seconds'
      : `both screens said the same ${level.toFixed(0)} ms after the last key (aim: under ${AIM})`,
  );
  await one.reload();
  await one.getByRole('table').waitFor();
  const kept = await said(one);
  const read = [...kept.matchAll(/\b(\d+) of \d+/g)].map(([, count]) => Number(count));
  print(kept.replace(/\n+/g, ' · '));
  const missing = all - read.reduce((sum, count) => sum + count, 0);
  print(`missing after a reload: ${missing}`);
  if (missing !== 0 || agreed === '') process.exitCode = 1;
} finally {
  await context.close();
  await close();
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
}
