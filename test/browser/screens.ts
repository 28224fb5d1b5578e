import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { DEMO_HULL, DEMO_SURVEY } from '../../web/store/demoHull.ts';

const HULL = `#/hull/${DEMO_HULL}`;
const SURVEY = `${HULL}/survey/${DEMO_SURVEY}`;

/** Every screen of the demo hull: what it is called, its address, and a text that is there when it is. */
export const SCREENS: readonly (readonly [what: string, hash: string, seen: string | RegExp])[] = [
  ['hull', HULL, /^New survey/],
  ['readings', SURVEY, 'Press at the contacts only'],
  ['verdict', `${SURVEY}/profile`, 'All lines at one scale'],
  ['surface', `${SURVEY}/surface`, 'The bottom as one surface'],
  ['before rolling out', `${SURVEY}/rollout`, 'The supports were moved'],
  ['is it the bottom', `${SURVEY}/causes`, /^Test next|Is it the bottom/],
  ['sheet', `${SURVEY}/sheet`, 'Before you start'],
  ['exhibit', `${SURVEY}/exhibit`, /Print/],
  ['field sheet', `${SURVEY}/field-sheet`, /Print/],
  ['photos', `${SURVEY}/photos`, 'Photos'],
  ['import', `${HULL}/import`, 'or paste its text'],
  ['book', `${HULL}/book`, 'field book'],
  ['seasons', `${HULL}/seasons`, /survey/],
  ['running', `${HULL}/running`, /weight/i],
  ['device', '#/settings', 'Who measures'],
  ['yard', '#/', 'Search by name'],
  ['nowhere', '#/nothing', 'Nothing here'],
];

/** Makes the demo hull in an empty yard. */
export async function openDemo(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Open the demo hull' }).click();
  await page.getByRole('heading', { name: /Marsh Heron/ }).waitFor();
}

/** What stands where something is still to come. */
const STILL =
  /^(Loading|Reading|Judging|Working|Comparing|Laying|Waits|Opening)\b.*…$|being judged…$/;

/** Goes to a screen and waits until nothing of it is still to come. */
export async function visit(page: Page, hash: string, seen: string | RegExp): Promise<void> {
  await goTo(page, hash);
  await page.getByText(seen).first().waitFor();
  await settled(page, hash);
}

/** Goes to a screen, or to what stands there until it is loaded: no more to be seen of the one before. */
export async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate(async (to) => {
    if (location.hash === to) return;
    const heard = new Promise((resolve) => {
      addEventListener('hashchange', resolve, { once: true });
    });
    location.hash = to;
    await heard;
    for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
  }, hash);
}

/** Waits until nothing of what is on the page is still to come. */
export async function settled(page: Page, hash: string): Promise<void> {
  const still = async () => [
    ...(await page.locator('.waiting, [aria-busy=true]').allInnerTexts()),
    ...(await page.getByText(STILL).allInnerTexts()),
  ];
  await expect.poll(still, { message: hash }).toEqual([]);
}
