import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type {} from './gallery/page.ts';
import { serveOwnPage, type OwnPage } from './ownPage.ts';
import { describeApp, type ContextOptions } from './support.ts';

const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:";

describeApp('the pictures in a real browser', (app) => {
  let own: OwnPage | undefined;
  let address = '';

  beforeAll(async () => {
    own = await serveOwnPage('gallery', { 'Content-Security-Policy': POLICY });
    address = own.address;
  });
  afterAll(async () => {
    await own?.close();
  });

  async function open(sample: string, options: ContextOptions = {}): Promise<Page> {
    const page = await (await app.context(options)).newPage();
    await page.goto(`${address}?sample=${sample}`);
    await page.locator('svg.profile').first().waitFor();
    return page;
  }

  test.each([390, 820, 1440])('nothing is wider than a page of %i px', async (width) => {
    for (const sample of ['inches-wide', 'two-placements', 'oddities']) {
      const page = await open(sample, { width });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, sample).toBeLessThanOrEqual(0);
    }
  });

  test.each(['inches-wide', 'two-placements', 'oddities'])(
    'no word of a picture is cut off by its frame: %s',
    async (sample) => {
      for (const width of [390, 820, 1440]) {
        const page = await open(sample, { width });
        const cut = await page.evaluate(() =>
          [...document.querySelectorAll<SVGTextElement>('svg.profile text, svg.plan text')].flatMap(
            (text) => {
              const [own, frame] = [text, text.ownerSVGElement as SVGSVGElement].map((each) =>
                each.getBoundingClientRect(),
              );
              const inside =
                own.left >= frame.left - 1 &&
                own.right <= frame.right + 1 &&
                own.top >= frame.top - 1 &&
                own.bottom <= frame.bottom + 1;
              return inside ? [] : [text.textContent];
            },
          ),
        );
        expect(cut, `at ${width} px`).toEqual([]);
      }
    },
  );

  test('arrow keys go from station to station and tell its figures, End goes to the foremost', async () => {
    const page = await open('inches-wide');
    await page.getByRole('button', { name: /^P30in, port/ }).click();
    const cursor = page.getByRole('slider');
    await cursor.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const told = page.locator('.readout');
    await expect
      .poll(() => told.textContent())
      .toMatch(/^3 in gap as typed 1\/16; surface .* in proud, ± /);
    await expect
      .poll(() => cursor.getAttribute('aria-valuetext'))
      .toContain('3 in forward of the transom');
    await expect.poll(() => page.locator('tr.here').count()).toBe(1);
    await page.keyboard.press('End');
    await expect.poll(() => told.textContent()).toMatch(/^60 in/);
  });

  test('plus comes closer about the station, nought shows the whole line again', async () => {
    const page = await open('inches-wide');
    const times = page
      .locator('svg.profile')
      .first()
      .getByText(/^heights ×/);
    const whole = await times.textContent();
    await page.getByRole('slider').focus();
    await page.keyboard.press('End');
    await page.keyboard.press('+');
    const factor = (text: string | null): number => Number(String(text).replace('heights ×', ''));
    await expect
      .poll(async () => factor(await times.textContent()))
      .toBeCloseTo(factor(whole) / 2, 1);
    await page.keyboard.press('0');
    await expect.poll(() => times.textContent()).toBe(whole);
  });

  test('a line is chosen on the plan by keyboard, and turning the plan moves port across', async () => {
    const page = await open('inches-wide');
    const line = page.getByRole('button', { name: /^S30in, starboard/ });
    const before = (await line.boundingBox())?.x;
    await line.focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => line.getAttribute('aria-current')).toBe('true');
    await page.keyboard.press('ArrowRight');
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label')))
      .toMatch(/^S18in/);
    await page.getByRole('button', { name: 'From above' }).click();
    await expect.poll(async () => (await line.boundingBox())?.x).toBeGreaterThan(Number(before));
  });

  test('a picture saved from a dark screen is in the colours of paper and stands by itself', async () => {
    const page = await open('inches-wide', { scheme: 'dark' });
    const text = await page.evaluate(() => {
      const svg = document.querySelector<SVGSVGElement>('svg.profile');
      if (!svg) throw new Error('no picture');
      return window.pictures.svgText(svg);
    });
    expect(text).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg /);
    expect(text).toContain('xmlns="http://www.w3.org/2000/svg"');
    expect(text).toMatch(/<rect width="\d+" height="\d+" fill="#fff(fff)?"/);
    expect(text).toContain('rgb(25, 27, 30)');
    expect(text).not.toMatch(/ class=| style=|var\(|href=/);
    const read = await page.evaluate((source) => {
      const root = new DOMParser().parseFromString(source, 'image/svg+xml').documentElement;
      return { name: root.tagName, title: root.querySelector('title')?.textContent };
    }, text);
    expect(read.name).toBe('svg');
    expect(read.title).toContain('Profile of line P6in, port');
  });

  test('a PNG has three pixels a side for each of the screen’s, and ink on it', async () => {
    const page = await open('inches-wide', { scheme: 'dark' });
    const found = await page.evaluate(async () => {
      const svg = document.querySelector<SVGSVGElement>('svg.profile');
      if (!svg) throw new Error('no picture');
      const image = await createImageBitmap(await window.pictures.svgToPng(svg));
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [image.width, image.height];
      const pen = canvas.getContext('2d');
      pen?.drawImage(image, 0, 0);
      const { data } = pen?.getImageData(0, 0, image.width, image.height) ?? { data: [] };
      const shades = new Set<number>();
      for (let i = 0; i < data.length; i += 4) shades.add(data[i]);
      const asked = svg.viewBox.baseVal;
      return {
        size: [image.width, image.height],
        asked: [Math.round(asked.width * 3), Math.round(asked.height * 3)],
        lightest: Math.max(...shades),
        darkest: Math.min(...shades),
      };
    });
    expect(found.size).toEqual(found.asked);
    expect([found.darkest < 60, found.lightest]).toEqual([true, 255]);
  });

  test.each(['light', 'dark'] as const)('axe finds nothing in the pictures: %s', async (scheme) => {
    for (const sample of ['inches-wide', 'oddities']) {
      const page = await open(sample, { scheme });
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map(({ id, nodes }) => [id, nodes.map((n) => n.html)])).toEqual([]);
    }
  });
});
