/** Where the app stands, as its address says: a hash, so that any plain server or a folder will do. */
export type Route =
  | { readonly at: 'yard' }
  | { readonly at: 'settings' }
  | { readonly at: 'hull'; readonly hull: string }
  | { readonly at: 'survey'; readonly hull: string; readonly survey: string; readonly page: Page }
  | { readonly at: 'import'; readonly hull: string }
  | { readonly at: 'seasons'; readonly hull: string }
  | { readonly at: 'running'; readonly hull: string }
  | { readonly at: 'book'; readonly hull: string }
  | { readonly at: 'nowhere'; readonly address: string };

export const PAGES = [
  'readings',
  'across',
  'profile',
  'surface',
  'rollout',
  'causes',
  'sheet',
  'exhibit',
  'field-sheet',
  'photos',
] as const;
export type Page = (typeof PAGES)[number];

const KEY = /^[0-9a-hjkmnp-tv-z]{12}$/;

/** Reads a hash. Anything that is no address of this app is `nowhere`, never an error. */
export function readRoute(hash: string): Route {
  const parts = hash.replace(/^#\/?/, '').split('/').filter(Boolean);
  const [first, hull, second, survey, page = 'readings'] = parts;
  const nowhere = { at: 'nowhere', address: hash.slice(0, 80) } as const;
  if (first === undefined) return { at: 'yard' };
  if (first === 'settings' && parts.length === 1) return { at: 'settings' };
  if (first !== 'hull' || hull === undefined || !KEY.test(hull)) return nowhere;
  if (parts.length === 2) return { at: 'hull', hull };
  if (second === 'import' && parts.length === 3) return { at: 'import', hull };
  if (second === 'seasons' && parts.length === 3) return { at: 'seasons', hull };
  if (second === 'running' && parts.length === 3) return { at: 'running', hull };
  if (second === 'book' && parts.length === 3) return { at: 'book', hull };
  if (second !== 'survey' || survey === undefined || !KEY.test(survey)) return nowhere;
  const found = PAGES.find((each) => each === page);
  if (found === undefined || parts.length > 5) return nowhere;
  return { at: 'survey', hull, survey, page: found };
}

/** The hash of a route; `readRoute` reads it back. */
export function writeRoute(route: Route): string {
  switch (route.at) {
    case 'yard':
    case 'nowhere':
      return '#/';
    case 'settings':
      return '#/settings';
    case 'hull':
      return `#/hull/${route.hull}`;
    case 'import':
      return `#/hull/${route.hull}/import`;
    case 'seasons':
      return `#/hull/${route.hull}/seasons`;
    case 'running':
      return `#/hull/${route.hull}/running`;
    case 'book':
      return `#/hull/${route.hull}/book`;
    case 'survey': {
      const base = `#/hull/${route.hull}/survey/${route.survey}`;
      return route.page === 'readings' ? base : `${base}/${route.page}`;
    }
  }
}
