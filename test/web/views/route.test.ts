import { describe, expect, it } from 'vitest';
import { PAGES, readRoute, writeRoute, type Route } from '../../../web/views/route.ts';

const hull = 'abcdefgh2345';
const survey = '0123456789ab';

describe('the address of a screen', () => {
  const routes: Route[] = [
    { at: 'yard' },
    { at: 'settings' },
    { at: 'hull', hull },
    { at: 'import', hull },
    { at: 'seasons', hull },
    { at: 'book', hull },
    { at: 'running', hull },
    ...PAGES.map((page) => ({ at: 'survey', hull, survey, page }) as const),
  ];

  it('reads back what it wrote', () => {
    for (const route of routes) expect(readRoute(writeRoute(route))).toEqual(route);
  });

  it('is the yard where there is none', () => {
    for (const hash of ['', '#', '#/']) expect(readRoute(hash)).toEqual({ at: 'yard' });
  });

  it('is nowhere for anything else, hostile or mistyped', () => {
    for (const hash of [
      '#/hull',
      '#/hull/x',
      '#/hull/__proto__',
      `#/hull/${hull}/survey`,
      `#/hull/${hull}/seasons/more`,
      `#/hull/${hull}/survey/${survey}/nothing`,
      `#/hull/${hull}/survey/${survey}/sheet/more`,
      `#/hull/${hull}/book/more`,
      `#/hull/${hull}/running/more`,
      '#/settings/more',
      '#/<script>',
    ]) {
      expect(readRoute(hash).at).toBe('nowhere');
    }
  });
});
