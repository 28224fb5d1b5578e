import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { bookOf } from '../src/book/book.ts';
import type { Entry } from '../src/book/entry.ts';
import { entryId } from '../src/book/id.ts';
import { readEntryFile } from '../src/book/readEntryFile.ts';
import { standing } from '../src/book/standing.ts';
import { writeEntryFile } from '../src/book/writeEntryFile.ts';
import { hullOf, surveyKeyOf } from '../src/survey/fold/hullOf.ts';
import { draftOf, stampAll } from '../src/survey/kinds/draft.ts';
import type { BodyOf } from '../src/survey/kinds/kinds.ts';
import { begin, deviceOf } from '../test/browser/surveyDriver.ts';
import { QUIET, served } from './served.ts';

/** Two pages of one browser type readings into the built app at once: on lines of their own of one survey, both on each line of
 *  it, in two surveys of a hull, in two hulls. Each time it is looked how long it takes from the last key until both screens
 *  say the same (of two surveys: each page what the other typed), and whether the record has each reading at its
 *  line and station, and none that nobody typed. `npm run trial:tabs [-- READINGS [SCENARIO]]`; 500 readings each, and all four,
 *  unless said otherwise. Exit status 1 where one is missing or too many, or the screens differ after ten seconds. */
const SCENARIOS = ['lines', 'line', 'surveys', 'hulls'] as const;
type Scenario = (typeof SCENARIOS)[number];
const TOLD: Readonly<Record<Scenario, string>> = {
  lines: 'two tabs on lines of their own of one survey',
  line: 'two tabs on the same lines of one survey',
  surveys: 'two tabs on two surveys of a hull',
  hulls: 'two tabs on two hulls',
};
const READINGS = Number(process.argv[2] ?? '500');
const asked = SCENARIOS.filter((each) => each === (process.argv[3] ?? each));
if (!(READINGS >= 1) || asked.length === 0) {
  throw new RangeError(
    `got ${process.argv.slice(2).join(' ')}, expected READINGS [${SCENARIOS.join(' | ')}]`,
  );
}
const STATIONS = 25;
/** That one tab types. */
const LINES = Math.max(1, Math.ceil(READINGS / STATIONS / 2));
const AIM = 1000;
const LONGEST = 10 * AIM;
/** How long the screens are looked at in any case, so that what comes late is seen to. */
const LEAST = 2 * AIM;

const print = (line: string): void => void process.stdout.write(`${line}\n`);

/** An invented hull with as many lines as it takes. */
function hullFile(hull: string, lines: number): string {
  const drafts = [
    draftOf('hull', { name: `Redshank ${hull.slice(-1)} (invented)`, invented: true }),
    ...Array.from({ length: lines }, (_, nth) =>
      draftOf('line', {
        name: nameOf(nth),
        side: 'port',
        offset: { mm: 50 * (nth + 1), text: `${50 * (nth + 1)} mm` },
      }),
    ),
  ];
  const at = Date.UTC(2026, 5, 1);
  const ids = drafts.map((_, nth) =>
    entryId({ hull, survey: '0', time: at + nth, random: new Uint8Array(10) }),
  );
  const signed = { by: 'A. Tester', device: 'Tablet', app: 'trial' };
  const entries: readonly Entry[] = stampAll(drafts, {
    ids,
    at: new Date(at).toISOString(),
    ...signed,
  });
  return writeEntryFile(bookOf(entries));
}

const nameOf = (nth: number): string => `P${50 * (nth + 1)}mm`;
/** The two tabs never type the same figure at one station. */
const gapOf = (tab: number, line: number, station: number): number =>
  2 * ((line + station) % 10) + tab;

/** What a screen says of every line: how many of its stations were read; and what it asks. */
const said = (page: Page): Promise<string> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('nav[aria-label="Lines"], .banner')]
      .map((each) => each.innerText.replace(/\s*\n\s*/g, ' · '))
      .join(' | '),
  );

/** Types lines from the one chosen on: digits and Enter; one more Enter goes to the next line. Where the other has begun a
 *  line it is walked from its first station all the same, and L looks again where a figure stands already. */
async function type(page: Page, tab: number, first: number): Promise<void> {
  for (let line = first; line < first + LINES; line += 1) {
    await page.locator('#gap-0').focus();
    for (let station = 0; station < STATIONS; station += 1) {
      if (await standsRead(page)) await page.keyboard.press('l');
      await page.keyboard.type(String(gapOf(tab, line, station)));
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: /^End of / }).waitFor();
    if (line < first + LINES - 1) await page.keyboard.press('Enter');
  }
}

const standsRead = (page: Page): Promise<boolean> =>
  page.evaluate(
    () => document.activeElement instanceof HTMLInputElement && document.activeElement.readOnly,
  );

async function takeIn(page: Page, file: string): Promise<void> {
  await page.goto(`${address}?`);
  await page.getByText('Take in an entry file').click();
  await page
    .getByLabel(/^Entry files of hulls/)
    .setInputFiles({ name: 'hull.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
  await page.getByRole('button', { name: 'Take in', exact: true }).click();
  await page.getByText(/\d+ new, 0 already/).waitFor();
}

/** Begins a survey of a hull, its stations planned, and says its address. */
async function survey(page: Page, hull: string): Promise<string> {
  await page.goto(`${address}#/hull/${hull}`);
  await page.getByRole('button', { name: 'New survey' }).click();
  await page.getByRole('heading', { name: 'Before anyone goes under' }).waitFor();
  await begin(page);
  await page.getByRole('button', { name: 'Stations…' }).click();
  const stations = Array.from({ length: STATIONS }, (_, nth) => 60 * nth).join(', ');
  await page.getByLabel(/^Stations of this survey/).fill(stations);
  await page.getByRole('button', { name: 'Use these stations' }).click();
  await page.waitForFunction(
    (count) => document.querySelectorAll('tr[data-state]').length === count,
    STATIONS,
  );
  return page.url();
}

async function show(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.getByRole('table').waitFor();
}

/** Every reading of a hull's record that stands: `survey line station gap`. */
async function kept(page: Page, hull: string): Promise<readonly string[]> {
  await page.goto(`${address}#/hull/${hull}/book`);
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the entry file' }).click();
  const text = readFileSync(await (await saving).path(), 'utf8');
  const { standing: entries } = standing(readEntryFile(text).book);
  const { lines } = hullOf(entries);
  const lineOf = new Map<string, string>();
  for (const { kind, _id, body } of entries) {
    if (kind !== 'placement') continue;
    const { line } = body as { readonly line: string };
    lineOf.set(_id, lines.find(({ ids }) => ids.includes(line))?.name ?? line);
  }
  return entries.flatMap(({ kind, _id, body }) => {
    if (kind !== 'reading') return [];
    const { placement, station, gap } = body as BodyOf<'reading'>;
    return [`${surveyKeyOf(_id)} ${lineOf.get(placement)} ${station.mm} ${gap.mm}`];
  });
}

/** What of one list is not in the other, each as often as it is there. */
function without(all: readonly string[], others: readonly string[]): readonly string[] {
  const left = [...others];
  return all.filter((each) => {
    const at = left.indexOf(each);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** Whether nothing was lost, and both screens came to say it. */
async function trial(scenario: Scenario, context: BrowserContext): Promise<boolean> {
  const nth = SCENARIOS.indexOf(scenario);
  const hulls = [`tw0tabshv${nth}11`, `tw0tabshv${nth}12`];
  const one = await context.newPage();
  one.setDefaultTimeout(120_000);
  await takeIn(one, hullFile(hulls[0], scenario === 'lines' ? 2 * LINES : LINES));
  const elsewhere = scenario === 'hulls' ? hulls[1] : hulls[0];
  if (scenario === 'hulls') await takeIn(one, hullFile(hulls[1], LINES));
  const apart = scenario === 'surveys' || scenario === 'hulls';
  const otherAt = apart ? await survey(one, elsewhere) : undefined;
  const oneAt = await survey(one, hulls[0]);
  // A window of its own, so that both are seen: a browser slows a page down that nobody sees.
  const opening = context.waitForEvent('page');
  await one.evaluate(
    (url) => void window.open(url, '_blank', 'popup,width=820,height=1180'),
    otherAt ?? oneAt,
  );
  const other = await opening;
  other.setDefaultTimeout(120_000);
  await other.getByRole('table').waitFor();
  const first = scenario === 'lines' ? LINES : 0;
  if (first > 0) {
    const lines = other.getByRole('navigation', { name: 'Lines' });
    await lines.getByRole('button', { name: nameOf(first) }).click();
  }
  for (const page of [one, other]) await page.locator('tr.current input').focus();

  const began = performance.now();
  await Promise.all([type(one, 0, 0), type(other, 1, first)]);
  const typed = performance.now();
  // Of two surveys, each page goes to the other's; what it left is what it must find there.
  const left = apart ? await Promise.all([said(other), said(one)]) : undefined;
  if (apart) await Promise.all([show(one, otherAt ?? ''), show(other, oneAt)]);
  const looks: { readonly at: number; readonly screens: readonly string[] }[] = [];
  const alike = (screens: readonly string[]): boolean =>
    left === undefined ? screens[0] === screens[1] : screens.every((each, i) => each === left[i]);
  for (let at = 0; at < LONGEST;) {
    const screens = await Promise.all([said(one), said(other)]);
    at = performance.now() - typed;
    looks.push({ at, screens });
    if (at >= LEAST && alike(screens)) break;
  }
  // What stands in the end was said by both from here on.
  const end = looks[looks.length - 1].screens;
  const level = looks.find(({ screens }) => screens.every((each, i) => each === end[i]));
  const agreed = alike(end) && level !== undefined;
  await show(one, (apart ? otherAt : undefined) ?? oneAt);
  await one.reload();
  await one.getByRole('table').waitFor();
  await one.waitForFunction((most) => performance.now() > most, AIM);
  const later = await said(one);

  const expected = [0, 1].flatMap((tab) => {
    const key = keyOf(tab === 1 ? (otherAt ?? oneAt) : oneAt);
    return Array.from({ length: LINES * STATIONS }, (_, each) => {
      const line = (tab === 1 ? first : 0) + Math.floor(each / STATIONS);
      const station = each % STATIONS;
      return `${key} ${nameOf(line)} ${60 * station} ${gapOf(tab, line, station)}`;
    });
  });
  const record = [
    ...(await kept(one, hulls[0])),
    ...(scenario === 'hulls' ? await kept(one, hulls[1]) : []),
  ];
  const missing = without(expected, record);
  const unasked = without(record, expected);
  const seconds = ((typed - began) / 1000).toFixed(1);
  print(`${TOLD[scenario]}: ${expected.length} readings typed in ${seconds} s`);
  print(
    agreed
      ? `  both screens said the same ${level.at.toFixed(0)} ms after the last key (aim: under ${AIM})`
      : `  the screens differ after ${LONGEST / 1000} s: ${end.join('\n    ')}`,
  );
  print(
    `  in the record ${record.length}, missing ${missing.length}, typed by nobody ${unasked.length}`,
  );
  if (later !== end[0]) print(`  after a reload it says: ${later}\n    and before: ${end[0]}`);
  for (const each of missing.slice(0, 5)) print(`  MISSING ${each}`);
  for (const each of unasked.slice(0, 5)) print(`  TYPED BY NOBODY ${each}`);
  await other.close();
  await one.close();
  return agreed && later === end[0] && missing.length === 0 && unasked.length === 0;
}

const keyOf = (url: string): string => /survey\/([^/?]+)/.exec(url)?.[1] ?? '';

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
  for (const scenario of asked) {
    if (!(await trial(scenario, context))) process.exitCode = 1;
  }
} finally {
  await context.close();
  await close();
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
}
