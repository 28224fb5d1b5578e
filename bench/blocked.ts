import type { Browser, Page } from 'playwright-core';

/** How long a page blocks its own thread while it opens, on a processor `slower` times slower: what each task takes
 *  beyond 50 ms, added up, as Lighthouse counts it. Counted from the processor time of the tasks and not from the clock,
 *  so that what else the machine does is not in it. ms. */
export async function blocked(
  browser: Browser,
  page: Page,
  url: string,
  slower: number,
): Promise<number> {
  await page.goto('about:blank');
  await browser.startTracing(page, { categories: ['devtools.timeline', 'toplevel', '__metadata'] });
  await page.goto(url);
  await page.waitForTimeout(WATCHED);
  const trace = JSON.parse((await browser.stopTracing()).toString()) as {
    readonly traceEvents: readonly TraceEvent[];
  };
  const own = new Set(
    trace.traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(threadOf),
  );
  return trace.traceEvents
    .filter((event) => event.name === 'RunTask' && own.has(threadOf(event)))
    .reduce(
      (sum, { tdur }) => (tdur === undefined ? sum : sum + beyond((slower * tdur) / 1000)),
      0,
    );
}

/** ms; longer than any page takes. */
const WATCHED = 7_000;
const LONG = 50;

const beyond = (ms: number): number => Math.max(0, ms - LONG);

/** As Chromium's tracing writes it; `tdur`: processor time, µs. */
interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

const threadOf = ({ pid, tid }: TraceEvent): string => `${pid}/${tid}`;
