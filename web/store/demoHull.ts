/** The hull and the survey of the demo. The same on every device, so that opening it twice makes it once. */
export const DEMO_HULL = 'dem0her0n000';
export const DEMO_SURVEY = 'dem0spr1ng00';

/** Whether a hull is the demo, which is never backed up nor given to a server. */
export function isDemo(hull: string): boolean {
  return hull === DEMO_HULL;
}
