import type { Page, Route } from '../views/route.ts';

type Load = () => Promise<unknown>;

/** Screens that are loaded only where they are gone to. */
export const SCREENS = {
  settings: () => import('./SettingsScreen.svelte'),
  hull: () => import('./HullScreen.svelte'),
  book: () => import('./BookScreen.svelte'),
  import: () => import('./ImportScreen.svelte'),
  seasons: () => import('./SeasonsScreen.svelte'),
  running: () => import('./RunningScreen.svelte'),
  survey: () => import('./SurveyScreen.svelte'),
} as const satisfies Partial<Record<Route['at'], Load>>;

/** Pages of a survey that its screen shows within itself. */
export const SURVEY_PAGES = {
  across: () => import('./AcrossPage.svelte'),
  profile: () => import('../parts/VerdictPage.svelte'),
  surface: () => import('./SurfacePage.svelte'),
  causes: () => import('../parts/CausesPage.svelte'),
  sheet: () => import('../parts/SheetPage.svelte'),
  exhibit: () => import('../parts/ExhibitPage.svelte'),
  'field-sheet': () => import('../parts/FieldSheetPage.svelte'),
  photos: () => import('./PhotosPage.svelte'),
} as const satisfies Partial<Record<Page, Load>>;

const screens: Partial<Record<Route['at'], Load>> = SCREENS;
const pages: Partial<Record<Page, Load>> = SURVEY_PAGES;

/** Sends at once for all that a route shows, while the record is still being opened: on a slow network each wait for
 *  the one before it would be seen. What does not come is said where it is shown (`Late`). */
export function sendFor(route: Route): void {
  const wanted = [screens[route.at], route.at === 'survey' ? pages[route.page] : undefined];
  for (const load of wanted) load?.().catch(() => undefined);
}
