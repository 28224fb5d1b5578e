import type { AlikeWhat, Unlike } from './unlike.ts';

/** What two surveys say of one thing in which they differ, in words: what somebody who accepts it has before them.
 *  `unlike`: all that is not alike. Undefined where they do not differ in it. */
export function differenceText(what: AlikeWhat, unlike: readonly Unlike[]): string | undefined {
  const said = unlike
    .filter((each) => each.what === what && each.known === 'differs')
    .map(({ first, second, lines }) => {
      const on = lines === undefined || lines.length === 0 ? '' : ` (${lines.join(', ')})`;
      if (what === 'repair') return `${second ?? first ?? ''}${on}`;
      return `first “${first ?? ''}”, then “${second ?? ''}”${on}`;
    });
  return said.length === 0 ? undefined : said.join('; ');
}
