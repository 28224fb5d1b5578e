import { expect, test } from 'vitest';
import { describeApp } from './support.ts';

describeApp('the built app', (app) => {
  test('opens with its title and drawing, and says nothing on the console', async () => {
    const page = await app.open({ width: 390, height: 844, scheme: 'dark' });
    await expect.poll(() => page.title()).toMatch(/aftrun/);
    await expect.poll(() => page.locator('#app').innerText()).toMatch(/\S/);
    const icon = await page.locator('link[rel="icon"]').getAttribute('href');
    const answer = await page.request.get(new URL(icon ?? '', page.url()).href);
    expect(answer.headers()['content-type']).toContain('image/svg');
  });

  test('says in a header that no other page may frame it', async () => {
    const answer = await fetch(app.address);
    expect(answer.headers.get('content-security-policy')).toBe("frame-ancestors 'none'");
  });

  test('runs no script that is written into the page', async () => {
    app.expectMessage(/Content Security Policy/);
    const page = await app.open();
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "ran";';
      document.head.append(script);
      return document.title === 'ran';
    });
    expect(ran).toBe(false);
  });

  test('loads nothing from another host', async () => {
    const context = await app.context();
    const asked: string[] = [];
    context.on('request', (request) => asked.push(request.url()));
    const page = await app.open(context);
    await page.waitForLoadState('networkidle');
    expect(asked.length).toBeGreaterThan(1);
    expect(asked.filter((url) => /^https?:/.test(url) && !url.startsWith(app.address))).toEqual([]);
  });

  test.fails('fails a test in which a page says an error on its console', async () => {
    const page = await app.open();
    await page.evaluate(() => {
      console.error('This line belongs to a test: it is there to fail it.');
    });
  });
});
