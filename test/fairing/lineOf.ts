import type { LineAssessment } from '../../src/survey/assessment.ts';

/** A line whose fitted profile is z(x) exactly, read at the stations given; its readings carry no placement that could
 *  be fitted, so that figures carry no uncertainty. mm. */
export function lineOf(
  z: (x: number) => number,
  to: number,
  stations: readonly number[],
  others: Partial<LineAssessment['line']['placements'][number]> = {},
): LineAssessment {
  const profile = Array.from({ length: 101 }, (_, i) => {
    const x = (to * i) / 100;
    return { x, z: z(x), u: 0.05 };
  });
  const nowhere = { size: 0, u: 0, at: 0, from: 0, to };
  return {
    line: {
      id: 'L',
      name: 'P300',
      side: 'port',
      offset: 300,
      placements: [
        {
          id: 'p',
          name: '1',
          repeat: 1,
          held: 'resting',
          readings: [],
          voids: [],
          later: [],
          ...others,
        },
      ],
    },
    part: 1,
    parts: 1,
    readings: stations.length,
    stations: stations.length,
    outcome: {
      ok: true,
      judgement: {
        verdict: ['hook'],
        told: 'both as they stand',
        hollow: nowhere,
        hump: nowhere,
        sections: [],
        fairness: 0,
        profile,
        reference: { middle: to / 2, level: 0, slope: 0 },
        judged: [0, to],
      },
      systematic: [],
      spacing: { narrowest: 100, widest: 100 },
      readingUncertainty: 0.1,
      division: 0.1,
    },
    points: stations.map((station) => ({
      station,
      stationText: String(station),
      gap: 0,
      gapText: '0',
      u: 0.1,
      placement: `only ${station}`,
      look: 1,
      judged: station <= to,
      source: 'made',
    })),
  };
}
