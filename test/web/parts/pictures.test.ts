import { render } from 'svelte/server';
import { expect, test } from 'vitest';
import PlanDrawing from '../../../web/parts/PlanDrawing.svelte';
import ProfileDrawing from '../../../web/parts/ProfileDrawing.svelte';
import { planLines } from '../../../web/views/planLines.ts';
import { planView } from '../../../web/views/planView.ts';
import { profileScale } from '../../../web/views/profileScale.ts';
import { profileView } from '../../../web/views/profileView.ts';
import { fromCsv, lineNamed, ODDITIES, sample } from '../views/pictured.ts';

/** The markup alone, an element a line: no comments of the renderer, no classes that it made up. */
function plain(body: string): string {
  return body
    .replaceAll(/<!--.*?-->/g, '')
    .replaceAll(/ svelte-[a-z0-9]+/g, '')
    .replaceAll(/></g, '>\n<');
}

function profile(assessment: ReturnType<typeof sample>, name: string): string {
  const size = { width: 180, height: 80, unit: 'mm' } as const;
  const asked = { limit: assessment.limit.mm, tolerance: assessment.tolerance.gap };
  const scale = profileScale(assessment.lines, asked, size);
  const unit = assessment.survey.workUnit;
  const view = profileView(lineNamed(assessment, name), assessment, { size, scale, unit });
  return plain(render(ProfileDrawing, { props: { view } }).body);
}

test('a hooked profile on paper is drawn as it was', () => {
  expect(profile(sample('inches-wide'), 'P18in')).toMatchSnapshot();
});

test('a profile with a void, a second look and readings ahead of the limit is drawn as it was', () => {
  expect(profile(fromCsv(ODDITIES), 'S450')).toMatchSnapshot();
});

test('a profile carries PORT or STARBOARD, TRANSOM, BOW and which side is the water', () => {
  const words = profile(sample('inches-wide'), 'P18in');
  for (const word of ['PORT', 'TRANSOM', 'BOW', 'towards the water', '×']) {
    expect(words).toContain(word);
  }
  expect(profile(sample('inches-wide'), 'S18in')).toContain('STARBOARD');
});

test('a plan on paper carries PORT, STARBOARD, TRANSOM, KEEL and how it is seen, and nothing to press', () => {
  const { lines, limit } = sample('inches-wide');
  const size = { width: 180, height: 110, unit: 'mm' } as const;
  const options = { size, from: 'below', unit: 'in', limit: limit.mm } as const;
  const view = planView(planLines(lines), { features: [] }, options);
  const body = plain(render(PlanDrawing, { props: { view } }).body);
  for (const word of ['PORT', 'STARBOARD', 'TRANSOM', 'KEEL', 'seen from below']) {
    expect(body).toContain(word);
  }
  expect(body).not.toContain('button');
  expect(body).toMatchSnapshot();
});
