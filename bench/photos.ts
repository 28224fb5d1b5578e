import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { QUIET, served } from './served.ts';

/** Measures what it costs to add 20 photos of 12 megapixels on a slow machine: the built app in Chromium, its
 *  processor slowed four times. Prints; asserts nothing. `npm run bench:photos`, after a build. */
const COUNT = 20;
const SLOWER = 4;
const [WIDTH, HEIGHT] = [4000, 3000];

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}

const { address, executablePath, close } = await served();
const browser = await chromium.launch({
  executablePath,
  args: [...QUIET],
});
const folder = await mkdtemp(join(tmpdir(), 'aftrun-photos-'));
try {
  const files = await madePhotos(browser, folder);
  for (const slower of [1, SLOWER]) await measured(await browser.newPage(), files, slower);
} finally {
  await browser.close();
  await close();
  await rm(folder, { recursive: true, force: true });
}

/** Gradients, edges and grain as a camera's: drawn in a page, each from its own number, nothing photographed. */
async function madePhotos(by: Browser, into: string): Promise<readonly string[]> {
  const page = await by.newPage();
  await page.goto(address);
  const files: string[] = [];
  let bytes = 0;
  for (let nth = 0; nth < COUNT; nth += 1) {
    const base64 = await page.evaluate(drawn, { nth, width: WIDTH, height: HEIGHT });
    const picture = new Uint8Array(Buffer.from(base64, 'base64'));
    bytes += picture.length;
    files.push(join(into, `photo ${nth + 1}.jpg`));
    await writeFile(files[nth], picture);
  }
  await page.close();
  print(`${COUNT} JPEGs of ${WIDTH} × ${HEIGHT} pixels, ${megabytes(bytes)} in all`);
  return files;
}

async function drawn({
  nth,
  width,
  height,
}: {
  nth: number;
  width: number;
  height: number;
}): Promise<string> {
  // An object's own method: the function is sent to the page as text, and only so keeps its form.
  const dice = {
    seed: 20261127 + nth,
    roll() {
      this.seed = (Math.imul(this.seed, 1664525) + 1013904223) >>> 0;
      return this.seed / 2 ** 32;
    },
  };
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('no canvas');
  const ground = context.createLinearGradient(0, 0, width * dice.roll(), height);
  ground.addColorStop(0, `hsl(${360 * dice.roll()} 30% 75%)`);
  ground.addColorStop(1, `hsl(${360 * dice.roll()} 40% 20%)`);
  context.fillStyle = ground;
  context.fillRect(0, 0, width, height);
  for (let i = 0; i < 400; i += 1) {
    context.fillStyle = `hsl(${360 * dice.roll()} 40% ${80 * dice.roll()}% / 0.4)`;
    context.beginPath();
    context.ellipse(
      width * dice.roll(),
      height * dice.roll(),
      600 * dice.roll(),
      120 * dice.roll(),
      Math.PI * dice.roll(),
      0,
      2 * Math.PI,
    );
    context.fill();
  }
  const image = context.getImageData(0, 0, width, height);
  for (let i = 0; i < image.data.length; i += 4) {
    const grain = 24 * (dice.roll() + dice.roll() - 1);
    for (let c = 0; c < 3; c += 1) image.data[i + c] += grain;
  }
  context.putImageData(image, 0, 0);
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let from = 0; from < bytes.length; from += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(from, from + 0x8000));
  }
  return btoa(text);
}

async function measured(page: Page, files: readonly string[], slower: number): Promise<void> {
  page.setDefaultTimeout(600_000);
  await page.goto(address);
  await page.getByRole('button', { name: 'New hull' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Grey Teal (invented)');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('button', { name: 'New survey' }).click();
  await page.getByRole('link', { name: 'Photos' }).click();
  await page.getByLabel('Choose photos, or drop them here').waitFor();
  const before = await usage(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  await page.evaluate(() => {
    const seen = { tasks: [] as number[], gap: 0 };
    Object.assign(window, { seen });
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) seen.tasks.push(duration);
    }).observe({ type: 'longtask' });
    // What a person would feel: how long nothing on the page could answer.
    let last = performance.now();
    setInterval(() => {
      const now = performance.now();
      seen.gap = Math.max(seen.gap, now - last);
      last = now;
    }, 5);
  });
  const start = performance.now();
  await page.getByLabel('Choose photos, or drop them here').setInputFiles([...files]);
  await page.getByText(`${COUNT} photos were kept.`).waitFor();
  const time = performance.now() - start;
  await page.waitForTimeout(3000);
  const { tasks, gap } = await page.evaluate(
    () => (window as unknown as { seen: { tasks: number[]; gap: number } }).seen,
  );
  const after = await usage(page);
  const shown = await page.locator('img').count();
  print(`\nThe page's processor ${slower === 1 ? 'as it is' : `${slower} times slower`}`);
  print(`  all of them kept and listed (${shown} shown): ${(time / 1000).toFixed(1)} s`);
  print(
    `  longest task of the page: ${Math.max(0, ...tasks).toFixed(0)} ms, ${tasks.length} over 50 ms`,
  );
  print(`  longest time without an answer from the page: ${gap.toFixed(0)} ms`);
  print(`  the database grew by ${megabytes(after - before)} (aim: less than 10 MB)`);
  await page.close();
}

async function usage(page: Page): Promise<number> {
  const { usage: bytes } = await page.evaluate(() => navigator.storage.estimate());
  if (bytes === undefined) throw new Error('the browser does not tell what it stores');
  return bytes;
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}
