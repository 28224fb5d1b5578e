import { describe, expect, it } from 'vitest';

import { movedSince } from '../../src/seasons/movedSince.ts';
import { assess } from '../../src/survey/assess.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { sample } from '../survey/madeSurveys.ts';

const seasons = ['season-2024.csv', 'season-2025.csv', 'season-2026.csv'].map(sample);
const [first, second, third] = seasons;

const none = { repairs: [] };
const undated = (survey: Survey): Survey => {
  const said = Object.entries(survey).filter(([fact]) => fact !== 'date');
  return Object.fromEntries(said) as unknown as Survey;
};
const onTrailer = (survey: Survey): Survey => ({ ...survey, support: [{ what: 'Trailer' }] });
const empty = (date: string): Survey => ({ ...third, date, lines: [] });

describe('whether a hull moved since', () => {
  it('is asked of its last survey and the one before, in whatever order they come', () => {
    // The sample's own story: port 700 moves, the other three lines do not (fixtures/samples/README.md).
    const found = {
      outcome: 'moved',
      since: String(second.date),
      lines: ['P700'],
      compared: 4,
    };
    expect(movedSince(seasons, none)).toEqual(found);
    expect(movedSince([third, first, second], none)).toEqual(found);
  });

  it('passes over surveys that are not alike, to the latest that can be compared', () => {
    expect(movedSince([first, onTrailer(second), third], none)).toMatchObject({
      outcome: 'moved',
      since: first.date,
    });
  });

  it('says what stands in the way where none can be compared', () => {
    expect(movedSince([first, second, onTrailer(third)], none)).toEqual({
      outcome: 'not compared',
      why: ['support'],
    });
    const repair = { date: String(third.date), what: 'Faired' };
    expect(movedSince(seasons, { repairs: [repair] })).toEqual({
      outcome: 'not compared',
      why: ['repair'],
    });
  });

  it('lays nothing to the hull where a line that nobody worked on moved too', () => {
    const repair = { date: String(third.date), what: 'Faired', lines: ['S300', 'S700'] };
    expect(movedSince([second, third], { repairs: [repair] })).toEqual({
      outcome: 'cannot tell',
      since: second.date,
      lines: ['P700'],
      compared: 2,
      setUpChanged: true,
    });
  });

  it('compares what somebody accepted knowingly, and heeds the line that somebody named as untouched', () => {
    const moved = [first, second, onTrailer(third)];
    const accepted = () => ['support'] as const;
    expect(movedSince(moved, { repairs: [], accepted })).toMatchObject({
      outcome: 'moved',
      since: second.date,
    });
    const control = () => ['P700'];
    expect(movedSince(seasons, { repairs: [], control })).toMatchObject({
      outcome: 'cannot tell',
      setUpChanged: true,
    });
  });

  it('has no lines in common to tell by where the lines are others', () => {
    const far = {
      ...third,
      lines: third.lines.map((line) => ({ ...line, offset: line.offset + 100 })),
    };
    expect(movedSince([second, far], none)).toEqual({ outcome: 'not compared', why: [] });
  });

  it('is not asked of one survey, nor of those without a date or a reading', () => {
    expect(movedSince([], none)).toBeUndefined();
    expect(movedSince([undated(first), empty('2026-09-01')], none)).toBeUndefined();
    expect(movedSince([first], none)).toEqual({ outcome: 'one survey only' });
    expect(movedSince([first, undated(second), empty('2026-09-01')], none)).toEqual({
      outcome: 'one survey only',
    });
  });

  it('judges no survey that it does not need', () => {
    const asked: Survey[] = [];
    movedSince(seasons, none, (survey) => {
      asked.push(survey);
      return assess(survey);
    });
    expect(asked).toEqual([third, second]);
  });
});
