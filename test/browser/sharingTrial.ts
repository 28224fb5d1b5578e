import { bookOf } from '../../src/book/book.ts';
import { foldText } from '../foldText.ts';
import { seededBelow } from '../seeded.ts';
import { madeYard } from '../server/made.ts';
import { ProtocolServer } from '../server/protocolServer.ts';
import type { Place } from './sharingPage/page.ts';
import { until, type BrowserTablet } from './sharingTablet.ts';

export interface BrowserTrial {
  /** Each tablet's fold, and the fold of all that was ever stated. */
  readonly folds: readonly string[];
  readonly expected: string;
  readonly stated: number;
  /** From the last reconnection until all had everything and said so, ms. */
  readonly levelAfter: number;
  /** What the tablets said of the server meanwhile. */
  readonly said: ReadonlySet<string>;
}

export interface BrowserTrialOptions {
  readonly tablets: readonly BrowserTablet[];
  readonly operations: number;
  readonly seed: number;
  /** Between two operations of a tablet, ms. */
  readonly pause: number;
  /** Between two changes of a tablet's network, ms. */
  readonly partitions: number;
  readonly heard?: (line: string) => void;
}

const pauseFor = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Tablets in browsers work on one survey, so many operations each, while their networks come and go and the server is
 *  killed, changes the password and takes rights away; then all is put right. */
export async function trialInBrowsers(options: BrowserTrialOptions): Promise<BrowserTrial> {
  const { tablets, operations, seed, pause, partitions, heard = () => undefined } = options;
  const server = new ProtocolServer();
  await server.start();
  await madeYard(server);
  const below = seededBelow(seed);
  const said = new Set<string>();
  try {
    for (const tablet of tablets) await tablet.share(server);
    const [first] = tablets;
    const place = await first.begin('Brent Goose (invented)');
    const all = async (ask: (tablet: BrowserTablet) => Promise<boolean>): Promise<boolean> =>
      (await Promise.all(tablets.map(ask))).every((yes) => yes);
    const told = (): Promise<string> => toldOf(tablets, place);
    await until(
      () => all(async (tablet) => (await tablet.hulls()).includes(place.hull)),
      120_000,
      told,
    );

    let working = true;
    const work = Promise.all(
      tablets.map((tablet, i) =>
        tablet.work({ ...place, count: operations, seed: seed + 1 + i, pause }),
      ),
    ).finally(() => (working = false));
    const cutting = (async () => {
      while (working) {
        await pauseFor(partitions * (0.5 + below(100) / 100));
        const tablet = tablets[below(tablets.length)];
        if (working) await tablet.plug(!tablet.online);
      }
    })();
    const hears = (kind: string): Promise<void> =>
      until(
        async () => {
          const [online] = tablets.filter((tablet) => tablet.online);
          if (online === undefined) await first.plug(true);
          const kinds = await Promise.all(
            tablets.map(async (tablet) => (await tablet.status())?.failure?.kind),
          );
          return kinds.some((each) => each === kind);
        },
        120_000,
        told,
      ).then(() => {
        said.add(kind);
        heard(`a tablet says: ${kind}`);
      });

    await server.kill();
    heard('server killed');
    await pauseFor(1_000 + below(2_000));
    await server.start();
    heard('server started');
    await server.user('hand', 'another word');
    await hears('password');
    await server.user('hand', 'a word');
    const { answer: rights } = await server.ask('GET', '/yard/_security');
    const nobody = { names: ['nobody'], roles: [] };
    await server.ask('PUT', '/yard/_security', { members: nobody, admins: nobody });
    await hears('rights');
    await server.kill();
    heard('server killed');
    await server.start();
    await server.ask('PUT', '/yard/_security', rights);
    heard('all is right again');
    await work;
    await cutting;
    heard('all is stated');

    for (const tablet of tablets) await tablet.plug(false);
    for (const tablet of tablets) await tablet.plug(true);
    const from = performance.now();
    const stated = (await Promise.all(tablets.map((tablet) => tablet.stated()))).flat();
    await until(
      () =>
        all(
          async (tablet) => (await tablet.count(place)) === stated.length && (await tablet.level()),
        ),
      120_000,
      told,
    );
    const levelAfter = performance.now() - from;
    const folds = await Promise.all(tablets.map((tablet) => tablet.fold(place)));
    const expected = foldText(bookOf(stated), place.survey);
    return { folds, expected, stated: stated.length, levelAfter, said };
  } finally {
    await server.end();
  }
}

async function toldOf(tablets: readonly BrowserTablet[], place: Place): Promise<string> {
  const stands = tablets.map(async (tablet) => {
    const [count, status] = await Promise.all([tablet.count(place), tablet.status()]);
    return `${count} entries, ${JSON.stringify(status)}`;
  });
  return `not level: ${(await Promise.all(stands)).join('; ')}`;
}
