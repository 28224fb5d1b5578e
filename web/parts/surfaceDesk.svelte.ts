import type { SurfaceFound } from '../../src/survey/panels/surfaceFrom.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { reasonOf } from '../store/reasonOf.ts';

type WorkOut = (survey: Survey, unit: Survey['workUnit']) => Promise<SurfaceFound>;

/** The surface of one survey as far as it is worked out. */
export class SurfaceDesk {
  found = $state.raw<SurfaceFound | undefined>();
  working = $state.raw(false);
  failed = $state.raw('');

  readonly #workOut: WorkOut;
  #asked: readonly [Survey, Survey['workUnit']] | undefined;

  constructor(workOut: WorkOut) {
    this.#workOut = workOut;
  }

  async ask(survey: Survey, unit: Survey['workUnit']): Promise<void> {
    if (survey === this.#asked?.[0] && unit === this.#asked[1]) return;
    const asked = [survey, unit] as const;
    this.#asked = asked;
    this.failed = '';
    this.working = true;
    try {
      const found = await this.#workOut(survey, unit);
      if (asked === this.#asked) this.found = found;
    } catch (error) {
      if (asked === this.#asked) this.failed = reasonOf(error);
    }
    if (asked === this.#asked) this.working = false;
  }
}
