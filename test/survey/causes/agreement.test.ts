import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { agreementOf } from '../../../src/survey/causes/agreement.ts';
import { sampleSurvey } from '../../web/sheets/samples.ts';

const INCH = 25.4;
const story = (name: string) =>
  assess(sampleSurvey(`stories/${name}`), { tolerance: INCH / 16, over: 60 * INCH });
const hooked = story('not-to-blame');
const rockered = story('rocker-blocks');

describe('whether the class of the bottom goes with the complaint', () => {
  it('agrees for a hook with ploughing or slow planing, and for a rocker with porpoising', () => {
    expect(agreementOf(hooked, { does: ['ploughs'] }).says).toBe('agrees');
    expect(agreementOf(hooked, { does: ['slow to plane'] }).says).toBe('agrees');
    expect(agreementOf(rockered, { does: ['porpoises'] }).says).toBe('agrees');
  });

  it('opposes for a hook with porpoising, also where it ploughs too, and for a rocker with ploughing', () => {
    expect(agreementOf(hooked, { does: ['porpoises'] }).says).toBe('opposes');
    expect(agreementOf(hooked, { does: ['porpoises', 'ploughs'] }).says).toBe('opposes');
    expect(agreementOf(rockered, { does: ['ploughs'] }).says).toBe('opposes');
  });

  it('explains a list by sides that differ, and names what else does', () => {
    const oneSide = agreementOf(story('one-side'), { does: ['lists'] });
    expect(oneSide.says).toBe('agrees');
    expect(oneSide.words).toContain('PORT is hooked');
    expect(agreementOf(hooked, { does: ['lists'] }).says).not.toBe('agrees');
  });

  it('explains nothing where nobody said what the boat does', () => {
    expect(agreementOf(hooked, undefined).says).toBe('nothing complained of');
    expect(agreementOf(hooked, { does: [] }).words).toContain('not stated');
  });

  it('says nothing of a bottom that nobody measured', () => {
    expect(agreementOf(undefined, { does: ['porpoises'] }).says).toBe('nothing measured');
    expect(agreementOf({ ...hooked, lines: [] }, undefined).says).toBe('nothing measured');
  });
});
