import { panelName } from '../../src/survey/acrossSide.ts';
import type { SurfaceFound } from '../../src/survey/panels/surfaceFrom.ts';

/** What lines that are each judged by themselves do not show. */
export interface SurfaceProves {
  /** "Twisted", "Twisted, hollow". */
  readonly word: string;
  /** "PORT, lines P150, P300, P450 and P600". */
  readonly where: string;
}

/** What is proven of panels as surfaces, to stand beside what is said of their lines. */
export function surfaceProves({ panels }: SurfaceFound): readonly SurfaceProves[] {
  return panels.flatMap(({ side, lines, words, proven }) =>
    proven
      ? [
          {
            word: words.word,
            where: `${panelName(side)}, lines ${lines[0].name} to ${lines[lines.length - 1].name}`,
          },
        ]
      : [],
  );
}
