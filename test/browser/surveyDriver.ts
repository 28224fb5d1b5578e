import type { BrowserContext, Page } from 'playwright-core';

/** A device whose person works in inches, or in mm, and whose theme follows the system. A test types faster than any
 *  hand, so that the guard against a gauge that sends twice is off unless it is asked for. */
export async function deviceOf(
  context: BrowserContext,
  unit: 'mm' | 'in',
  answers: Readonly<Record<string, string>> = {},
): Promise<void> {
  const settings = {
    key: 'dev1ce000000',
    name: 'Tablet',
    person: 'A. Tester',
    unit,
    answers: { 'burst guard': 'off', ...answers },
  };
  await context.addInitScript((text) => {
    if (!location.protocol.startsWith('http')) return;
    if (localStorage.getItem('aftrun-device') === null) localStorage.setItem('aftrun-device', text);
  }, JSON.stringify(settings));
}

/** From the yard to the page of a new hull. */
export async function newHull(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'New hull' }).click();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('heading', { name, level: 1 }).waitFor();
}

/** From the yard to the questions of a new survey. */
export async function toSetup(page: Page, name = 'Grey Teal (invented)'): Promise<void> {
  await newHull(page, name);
  await page.getByRole('button', { name: 'New survey' }).click();
  await page.getByRole('heading', { name: 'Before anyone goes under' }).waitFor();
}

/** Answers what must be asked, as it is proposed, and begins. */
export async function begin(page: Page): Promise<void> {
  await page.getByLabel('On its supports, checked and chained').check();
  await page.getByLabel('What stands where').fill('keel blocks, four stands at the chines');
  await page.getByRole('button', { name: 'Start reading' }).click();
  await page.getByRole('table').waitFor();
}

/** The gap's cell at a station, "12". */
export function cell(page: Page, station: string) {
  return page.getByLabel(new RegExp(`^Gap at station ${station.replace('.', '\\.')},`));
}
