import { exactLength } from '../exactText.ts';
import { readLength } from '../readingText.ts';
import { MATERIALS, type EdgeSag } from '../survey.ts';

/** The ways in which the sag of an edge is written. */
export const SAG_EXPECTED =
  'a section such as 25 mm by 75 mm aluminium (across, then up and down; "wall 3 mm" for a box), or 0.2 mm between 2000 mm as measured, or 5 kg/m and 60000 N m2, or for a string 0.001 kg/m at 100 N';

const NUMBER = '(\\d+(?:\\.\\d+)?(?:e[+-]?\\d+)?)';
const STIFFNESS = new RegExp(`^${NUMBER} ?kg/m (?:and|,) ?${NUMBER} ?N ?m(?:2|²)$`, 'i');
const TENSION = new RegExp(`^${NUMBER} ?kg/m at ${NUMBER} ?N$`, 'i');

/** Reads what an edge sags by; undefined where it is written in none of the ways of `SAG_EXPECTED`. */
export function readSag(text: string): EdgeSag | undefined {
  const plain = text.trim().replace(/\s+/g, ' ');
  const stiff = STIFFNESS.exec(plain);
  if (stiff)
    return aboveZero({ from: 'stiffness', weight: Number(stiff[1]), stiffness: Number(stiff[2]) });
  const string = TENSION.exec(plain);
  if (string)
    return aboveZero({ from: 'tension', weight: Number(string[1]), tension: Number(string[2]) });
  const measured = /^(.+) between (.+)$/i.exec(plain);
  if (measured) {
    const [sag, between] = [length(measured[1]), length(measured[2])];
    return sag === undefined || between === undefined
      ? undefined
      : { from: 'measured', sag, between };
  }
  const section = /^(.+?) by (.+?)(?:,? wall (.+?))?,? (\w+)$/i.exec(plain);
  if (!section) return undefined;
  const material = MATERIALS.find((each) => each === section[4].toLowerCase());
  const [width, depth] = [length(section[1]), length(section[2])];
  if (material === undefined || width === undefined || depth === undefined) return undefined;
  if (section[3] === undefined) return { from: 'section', width, depth, material };
  const wall = length(section[3]);
  return wall === undefined ? undefined : { from: 'section', width, depth, wall, material };
}

/** The same as text; `readSag` gives it back. */
export function writeSag(sag: EdgeSag, unit: 'mm' | 'in'): string {
  switch (sag.from) {
    case 'section': {
      const wall = sag.wall === undefined ? '' : `, wall ${exactLength(sag.wall, unit)},`;
      return `${exactLength(sag.width, unit)} by ${exactLength(sag.depth, unit)}${wall} ${sag.material}`;
    }
    case 'stiffness':
      return `${sag.weight} kg/m and ${sag.stiffness} N m2`;
    case 'measured':
      return `${exactLength(sag.sag, unit)} between ${exactLength(sag.between, unit)}`;
    case 'tension':
      return `${sag.weight} kg/m at ${sag.tension} N`;
  }
}

function aboveZero(sag: EdgeSag): EdgeSag | undefined {
  return Object.values(sag).every((v) => typeof v !== 'number' || v > 0) ? sag : undefined;
}

function length(text: string): number | undefined {
  const read = readLength(text);
  return read.ok && read.mm > 0 ? read.mm : undefined;
}
