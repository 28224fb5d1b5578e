import { MEASURES, rateOf, share, tolerances, type Measure } from './measures.ts';
import { NOISES, OVERS, type Cell } from './plan.ts';

export interface Study {
  readonly seed: number;
  readonly runs: number;
  readonly cells: readonly Cell[];
}

/** The study for people: Markdown tables, the first as the README has it. */
export function studyText(study: Study): string {
  const { seed, runs, cells } = study;
  const trials = cells.reduce((sum, c) => sum + c.trials.length, 0);
  const none = cells.filter((c) => c.trials.length === 0 && c.noise === NOISES[0].key);
  const parts = [
    `Seed ${seed}, ${runs} runs a shape, noise and edge length at T and ${runs / 2} elsewhere, ${trials} readings of a line in all.`,
    'How often, in per cent: the mean of the shapes / the worst shape.',
    mainTable(study),
    chance(study),
    'The worst shape of each row:',
    worstTable(study),
    `Each shape at ${NOISES[0].key}, edge as long as the line / 0.6 of it, in per cent:`,
    shapeTable(study),
    'What the rows mean:',
    definitions(),
    ...none.map(
      (c) =>
        `Left out: ${c.family} at ${tolerances(c.depth)}, edge ${c.over} mm: it jumps from one account to another there.`,
    ),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** The study as plain data: every rate, and each cell's by spacing. Per cent. */
export function studyJson({ seed, runs, cells }: Study): object {
  return {
    seed,
    runs,
    noises: NOISES,
    measures: MEASURES.map((measure) => ({
      label: measure.label,
      means: measure.means,
      aim: measure.aim,
      rates: NOISES.map(({ key }) => ({ noise: key, ...rateOf(measure, cells, key) })),
    })),
    cells: cells.map(({ trials, ...cell }) => ({
      ...cell,
      spacings: [...new Set(trials.map((t) => t.spacing))].map((spacing) => {
        const of = trials.filter((t) => t.spacing === spacing);
        const rates = MEASURES.filter((m) => m.depths.includes(cell.depth)).map(
          (m) => [m.label, share(of, m)] as const,
        );
        return { spacing, trials: of.length, ...Object.fromEntries(rates) };
      }),
    })),
  };
}

/** One a meaning; rows that differ in the departure alone share theirs. */
function definitions(): string {
  const labels = new Map<string, string>();
  for (const { label, means } of MEASURES) {
    labels.set(means, labels.has(means) ? label.replace(/^at [^:]*: /, '') : label);
  }
  return [...labels].map(([means, label]) => `- ${label}: ${means}.`).join('\n');
}

function mainTable({ cells }: Study): string {
  const head = ['', 'aim', ...NOISES.map(({ key }) => key)];
  const rows = MEASURES.map((measure) => [
    measure.label,
    measure.aim,
    ...NOISES.map(({ key }) => {
      const { mean, worst } = rateOf(measure, cells, key);
      return worst ? `${mean.toFixed(1)} / ${worst.rate.toFixed(1)}` : mean.toFixed(1);
    }),
  ]);
  return markdown(head, rows);
}

/** What luck alone does to the two figures where the truth is 5 in 100. */
function chance({ cells }: Study): string {
  const atT = rateOf(MEASURES[0], cells, NOISES[0].key).trials;
  const spread = (n: number) => (196 * Math.sqrt((0.05 * 0.95) / n)).toFixed(1);
  return `Luck alone moves a figure of 5 at T by ± ${spread(atT)} (mean) or ± ${spread(atT / new Set(cells.map((c) => c.family)).size)} (one shape), and the worst of many is the unluckiest of them.`;
}

function worstTable({ cells }: Study): string {
  const rows = MEASURES.filter((m) => m.good).map((measure) => [
    measure.label,
    ...NOISES.map(({ key }) => {
      const { mean, worst } = rateOf(measure, cells, key);
      return !worst || worst.rate === mean ? 'all alike' : worst.family;
    }),
  ]);
  return markdown(['', ...NOISES.map(({ key }) => key)], rows);
}

function shapeTable({ cells }: Study): string {
  const shown: readonly Measure[] = MEASURES.filter(
    (m) => m.good && m.aim !== '' && !m.label.includes('tail'),
  );
  const names = [...new Set(cells.map((c) => c.family))];
  const rows = names.map((family) => [
    family,
    ...shown.map((measure) =>
      OVERS.map((over) => {
        const trials = cells
          .filter((c) => c.family === family && c.over === over && c.noise === NOISES[0].key)
          .filter((c) => measure.depths.includes(c.depth))
          .flatMap((c) => c.trials);
        return trials.length > 0 ? share(trials, measure).toFixed(0) : 'none';
      }).join(' / '),
    ),
  ]);
  return markdown(['', ...shown.map((m) => m.label)], rows);
}

/** As the formatter of this repository lays it out, so that it can be copied. */
function markdown(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((cell, i) => Math.max(3, cell.length, ...rows.map((r) => r[i].length)));
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, i) => cell.padEnd(widths[i])).join(' | ')} |`;
  const rule = `| ${widths.map((w) => '-'.repeat(w)).join(' | ')} |`;
  return [line(head), rule, ...rows.map(line)].join('\n');
}
