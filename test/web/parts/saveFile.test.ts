import { describe, expect, it } from 'vitest';
import { safeName } from '../../../web/parts/saveFile.ts';

describe('the name of a file that is saved', () => {
  it.each([
    ['Marsh Heron 2026-05-01.csv', 'Marsh Heron 2026-05-01.csv'],
    ['../../etc/passwd', 'etc passwd'],
    ['..\\..\\x.csv', 'x.csv'],
    ['a/b: "c" <d>|e?*.csv', 'a b c d e .csv'],
    ['...hidden', 'hidden'],
    ['tab\tand\u0000nul.csv', 'tab and nul.csv'],
    ['photo\u202egpj.exe', 'photo gpj.exe'],
    ['\u202e.bashrc', 'bashrc'],
    ['CON.csv', 'CON file.csv'],
    ['nul', 'nul file'],
    ['Connie.csv', 'Connie.csv'],
    ['…/…', '… …'],
    ['///', 'aftrun'],
    ['', 'aftrun'],
  ])('of %j is %j', (name, safe) => {
    expect(safeName(name)).toBe(safe);
  });

  it('keeps its ending when it is cut, and is the same when it comes again', () => {
    const long = safeName(`${'Heron '.repeat(100)}2026-05-01.csv`);
    expect(long).toMatch(/….csv$/);
    expect(long.length).toBeLessThanOrEqual(120);
    expect(safeName(long)).toBe(long);
  });
});
