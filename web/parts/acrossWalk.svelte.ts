import { acrossSideWords } from '../../src/survey/acrossSide.ts';
import { assess } from '../../src/survey/assess.ts';
import { correctionOf, statementsOf } from '../../src/survey/fold/correctionOf.ts';
import { flatAcrossKeel } from '../../src/survey/flatAcrossKeel.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { TiePlan, WantedAcross } from '../../src/survey/panels/tiePlan.ts';
import type { PlacementAcross, Typed } from '../../src/survey/survey.ts';
import { acrossAnswers, readAcross } from '../views/acrossForm.ts';
import { acrossDrawn } from '../views/acrossDrawn.ts';
import {
  acrossAfter,
  acrossAgain,
  acrossChoices,
  acrossName,
  acrossRows,
  stationsAcross,
  type AcrossBody,
  type AcrossChoice,
  type AcrossWhere,
} from '../views/acrossView.ts';
import { statedAcross, statedLays, withChanges, type LayBody } from '../views/layView.ts';
import type { StationRow } from '../views/readingsView.ts';
import type { PlanAcross } from '../views/planAcross.ts';
import { tieView } from '../views/tieView.ts';
import { ReadingDesk } from './readingDesk.svelte.ts';

/** The readings table across the lines: which placement is being read, chosen by a person, else the last, and what is
 *  about to be laid. Its rows are the lines that it crosses. */
export class AcrossWalk extends ReadingDesk {
  protected readonly way = 'across';
  #chosen = $state.raw<string | undefined>();
  /** A laying that will be stated with its first reading. */
  #planned = $state.raw<AcrossBody | undefined>();

  readonly lines: readonly HullLine[] = $derived.by(() => this.store.hull.lines);
  readonly #stated = $derived.by(() => statedAcross(this.store.standing.standing, this.survey));
  readonly #across: readonly PlacementAcross[] = $derived.by(() => this.state?.survey.across ?? []);
  readonly lay: PlacementAcross | undefined = $derived.by(() => {
    if (this.#planned !== undefined) return undefined;
    const id = this.#chosen ?? this.#stated.at(-1)?.id;
    return this.#across.find((each) => each.id === id);
  });
  readonly body: AcrossBody | undefined = $derived.by(
    () => this.#stated.find(({ id }) => id === this.lay?.id)?.body ?? this.#planned,
  );
  readonly rows: readonly StationRow[] = $derived.by(() =>
    acrossRows({ ...this.#from, body: this.body, placement: this.lay }),
  );
  protected readonly unlaid: string = $derived.by(() => {
    const { body } = this;
    return `across ${body?.side} ${body?.direction} ${body?.name} ${body?.repeat}`;
  });
  readonly place: string = $derived.by(() =>
    this.lay === undefined ? this.unlaid : `across ${this.lay.id}`,
  );
  readonly choices: readonly AcrossChoice[] = $derived.by(() =>
    acrossChoices(this.#stated, this.#across, this.#from),
  );
  /** Whether it is stated that the bottom is flat across the keel. */
  readonly flat: boolean = $derived.by(
    () => this.state !== undefined && flatAcrossKeel(this.state.survey),
  );
  /** How far forward lines are judged, mm. */
  readonly limit: number | undefined = $derived.by(() => {
    const { state } = this;
    return state && assess({ ...state.survey, lines: [], across: [] }).limit.mm;
  });
  readonly plans: readonly TiePlan[] = $derived.by(() => {
    const { state, limit } = this;
    if (state === undefined || limit === undefined) return [];
    return tieView({ hull: this.store.hull, state, stated: this.#stated, limit });
  });
  readonly drawn: readonly PlanAcross[] = $derived.by(() =>
    acrossDrawn(this.#stated, this.#across, this.#from, { id: this.lay?.id, body: this.body }),
  );
  /** Where the edge lies, from the innermost line to the outermost. */
  readonly stations: readonly Typed[] = $derived.by(() => stationsAcross(this.rows));

  get #from() {
    return { lines: this.lines, features: this.store.hull.features, workUnit: this.unit };
  }

  /** Which lines it crosses at which stations: as stated, and as a file has it where nobody stated it. */
  get crosses(): AcrossWhere['crosses'] {
    return this.rows.flatMap(({ line, station }) => (line === undefined ? [] : { line, station }));
  }

  /** What is laid of a plan, by name. */
  laidNames({ side, laid }: TiePlan): readonly string[] {
    return laid.map(({ id }) => {
      const placement = this.#across.find((each) => each.id === id);
      const body = this.#stated.find((each) => each.id === id)?.body;
      if (placement === undefined) return '';
      const rows = acrossRows({ ...this.#from, body, placement });
      const name = acrossName(placement, stationsAcross(rows), this.unit);
      return placement.side === side ? name : `${name}, ${acrossSideWords(placement.side)}`;
    });
  }

  /** The last laying of the survey, whichever way it lay: how it was held goes over to the next. */
  get before(): LayBody | AcrossBody | undefined {
    const along = statedLays(this.store.standing.standing, this.survey).at(-1);
    const across = this.#stated.at(-1);
    if (across === undefined) return along?.body;
    return along === undefined || along.id < across.id ? across.body : along.body;
  }

  /** The plan whose next placement is wanted: of the side that is being worked on, else of the first that lacks one. */
  get wanted(): TiePlan | undefined {
    const open = this.plans.filter(({ missing }) => missing.length > 0);
    const side = this.body?.side ?? this.firstSide;
    // A side that nobody has read along its lines comes first only where it was begun.
    return (
      open.find((plan) => plan.side === side) ?? open.find(({ unread }) => unread.length === 0)
    );
  }

  protected override stay(): void {
    if (this.lay !== undefined) this.#chosen = this.lay.id;
  }

  choose(id: string): void {
    this.#chosen = id;
    this.#planned = undefined;
    this.moved();
  }

  /** The edge is about to be laid there; it is stated with its first reading. */
  layAt(where: AcrossWhere, changes: Partial<AcrossBody> = {}): void {
    const next = acrossAfter(where, this.before, this.#across, this.acts.support);
    this.#planned = withChanges(next, changes);
    this.moved();
  }

  /** The placement that is wanted, over all lines of its panel. */
  layWanted({ side, lines }: Pick<TiePlan, 'side' | 'lines'>, wanted: WantedAcross): void {
    const answers = acrossAnswers(side, wanted, this.unit);
    const ids = lines.map(({ id }) => id);
    const own = this.lines.filter(({ id }) => ids.includes(id));
    const read = readAcross(answers, own, this.unit);
    if (read.ok) this.layAt(read.where);
  }

  layAgain(changes: Partial<AcrossBody>): void {
    const { body } = this;
    if (body === undefined) return;
    this.#planned = withChanges(acrossAgain(body, this.#across, this.acts.support), changes);
    this.moved();
  }

  /** Puts right how this laying was stated. Where it lay at another station, so did what was read, void or put off of it;
   *  it is all written anew, as one act. */
  correct({ crosses }: AcrossWhere, changes: Partial<AcrossBody>): void {
    const { body, lay } = this;
    this.panel = undefined;
    if (body === undefined) return;
    const next = withChanges({ ...body, crosses: [...crosses] }, changes);
    if (lay === undefined) {
      this.#planned = next;
      return;
    }
    const { standing } = this.store.standing;
    const sources = statementsOf(standing, 'placement across', lay.id);
    this.acts.add([
      correctionOf(standing, sources, 'placement across', next),
      ...lay.readings.flatMap((act) => {
        const { gap, look } = act;
        return this.#moved('reading', lay.id, act, crosses, { gap, look });
      }),
      ...(['voids', 'later'] as const).flatMap((of) =>
        lay[of].flatMap((act) => {
          const { reason } = act;
          return this.#moved(of === 'voids' ? 'void' : 'later', lay.id, act, crosses, { reason });
        }),
      ),
    ]);
  }

  /** What was said of a line anew, where it is crossed at another station now. `said`: what a row of a file says. */
  #moved(
    kind: 'reading' | 'void' | 'later',
    placement: string,
    { source, line, station }: { source: string; line: string; station: Typed },
    crosses: AcrossWhere['crosses'],
    said: object,
  ): readonly Draft[] {
    const { standing } = this.store.standing;
    const ids = this.lines.find((each) => each.id === line)?.ids;
    const there = crosses.find((each) => ids?.includes(each.line))?.station;
    if (there === undefined || Math.abs(there.mm - station.mm) < 1e-3) return [];
    const entry = standing.find(({ _id }) => _id === source);
    const body = entry === undefined ? { placement, line, ...said } : (entry.body as object);
    const moved = { ...body, station: there } as BodyOf<typeof kind>;
    return [correctionOf(standing, [source], kind, moved)];
  }

  protected toState(ref: string): Draft | undefined {
    const { body } = this;
    return body && draftOf('placement across', body, { ref });
  }

  protected stated(id: string): void {
    this.#chosen = id;
    this.#planned = undefined;
  }
}
