import { posix } from 'node:path';
import { sourceImports } from './sourceImports.ts';

/** A room: which folders it may reach for besides itself, and which packages ("node:" is any built-in). */
interface Room {
  readonly folders: readonly string[];
  readonly packages: readonly RegExp[];
}

const packages = {
  statistics: /^simple-statistics$/,
  schemas: /^valibot$/,
  hashes: /^@noble\/hashes\//,
  csv: /^papaparse$/,
  programmes: /^yalps$/,
  drawing: /^d3(-[a-z-]+)?$/,
  svelte: /^svelte(\/|$)/,
  database: /^(pouchdb-[a-z-]+|events)$/,
  offline: /^workbox-(window|precaching|routing)$/,
  node: /^node:/,
};

const survey = ['src/survey', 'src/book', 'src/fit'];
const onSurvey: Room = {
  folders: survey,
  packages: [packages.statistics, packages.schemas, packages.drawing],
};
const figures = ['src/fairing', 'src/seasons', 'src/running', ...survey];
const screen = [
  'web/parts',
  'web/sheets',
  'web/views',
  'src/fairing',
  'src/seasons',
  'src/running',
];

/** The house, room by room; the longest folder that a file stands in is its room.
 *  web/parts, web/screens and web/store do not know how to compute, so neither src/fit nor D3. */
const rooms: Readonly<Record<string, Room>> = {
  'src/fit': { folders: [], packages: [packages.statistics] },
  'src/book': { folders: [], packages: [packages.schemas, packages.hashes] },
  'src/survey': {
    folders: ['src/book', 'src/fit'],
    packages: [packages.statistics, packages.schemas, packages.csv],
  },
  'src/fairing': { ...onSurvey, packages: [...onSurvey.packages, packages.programmes] },
  'src/seasons': onSurvey,
  'src/running': onSurvey,
  'src/cli': {
    folders: [...figures, 'web/views', 'web/sheets'],
    packages: [packages.node, packages.svelte, packages.schemas],
  },
  'web/views': { folders: figures, packages: [packages.drawing, packages.statistics] },
  'web/sheets': { folders: ['web/views', ...figures], packages: [packages.svelte] },
  'web/offline': { folders: [], packages: [packages.svelte, packages.offline] },
  'web/store': {
    folders: ['web/offline', 'src/fairing', 'src/seasons', 'src/running', 'src/survey', 'src/book'],
    packages: [packages.database, packages.schemas, packages.svelte],
  },
  'web/parts': {
    folders: [...screen, 'web/store', 'web/offline', 'src/survey', 'src/book'],
    packages: [packages.svelte],
  },
  'web/screens': {
    folders: [...screen, 'web/store', 'web/offline', 'src/survey', 'src/book'],
    packages: [packages.svelte],
  },
  web: {
    folders: [...screen, 'web/store', 'web/offline', 'web/screens', 'src/survey', 'src/book'],
    packages: [packages.svelte],
  },
};

/** The room a file stands in, or `undefined` for a file outside every room. */
export function roomOf(path: string): string | undefined {
  let folder = posix.dirname(path);
  // The web room itself is its top folder only: a new folder there needs a line of its own.
  if (rooms[folder]) return folder;
  for (; folder !== '.' && folder !== '/'; folder = posix.dirname(folder)) {
    if (folder !== 'web' && rooms[folder]) return folder;
  }
  return undefined;
}

/** What is wrong with the imports of one source; each a sentence that begins with its place. */
export function brokenArrows(path: string, text: string): string[] {
  const name = roomOf(path);
  if (name === undefined) return [`${path}: stands in no room of the house`];
  const room = rooms[name];
  return sourceImports(path, text).flatMap(({ specifier, line }) => {
    const at = `${path}:${String(line)}`;
    if (specifier === undefined) return [`${at}: imports a place that only a run can tell`];
    if (!specifier.startsWith('.')) {
      return room.packages.some((allowed) => allowed.test(specifier))
        ? []
        : [`${at}: ${name} may not know the package ${specifier}`];
    }
    const bare = specifier.replace(/\?.*$/, '');
    if (posix.extname(bare) === '') return [`${at}: ${specifier} lacks its extension`];
    const target = posix.join(posix.dirname(path), bare);
    const other = roomOf(target);
    if (other === name || (other !== undefined && room.folders.includes(other))) return [];
    return [`${at}: ${name} may not know ${other ?? target}`];
  });
}
