/** What a hull is called that nobody has named. */
export const NO_NAME = 'Hull without a name';

/** Whether a tag is needed beside a hull's name: the hull is invented, and its name does not say so. */
export function sayInvented(name: string, invented: boolean | undefined): boolean {
  return invented === true && !/invented/i.test(name);
}
