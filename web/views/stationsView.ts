import { withUnit } from '../../src/survey/withUnit.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { readLength } from '../../src/survey/readingText.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { inColumn } from './readingText.ts';

export type StationsRead =
  | { readonly ok: true; readonly stations: readonly Typed[] }
  | { readonly ok: false; readonly words: string };

/** A list of stations as a person writes it: "0, 3, 6, 12.5", parted by commas, semicolons or lines; a decimal point
 *  within. They may be uneven. Two at one place are refused, and so is a station that is no length. */
export function readStations(text: string, unit: 'mm' | 'in'): StationsRead {
  const cells = text
    .split(/[,;\n]/)
    .map((cell) => cell.trim())
    .filter((cell) => cell !== '');
  if (cells.length === 0) return { ok: false, words: 'Expected at least one station.' };
  const stations = new Map<number, Typed>();
  for (const cell of cells) {
    const read = readLength(cell, { unit });
    if (!read.ok) {
      return { ok: false, words: `Found “${read.found}”, expected ${read.expected}.` };
    }
    const key = Math.round(read.mm * 1000);
    const station = {
      mm: read.mm,
      text: read.stated ? read.text : `${read.text} ${read.unit}`,
    };
    const twin = stations.get(key);
    if (twin !== undefined) {
      return { ok: false, words: `Found “${cell}” twice, expected each station once.` };
    }
    stations.set(key, station);
  }
  return { ok: true, stations: [...stations.values()].sort((a, b) => a.mm - b.mm) };
}

/** A length that somebody wants to see, as typed; empty: none is asked for. */
export function readAim(
  text: string,
  unit: 'mm' | 'in',
): { readonly ok: true; readonly mm?: number } | { readonly ok: false; readonly words: string } {
  if (text.trim() === '') return { ok: true };
  const read = readLength(text, { unit });
  if (!read.ok) return { ok: false, words: `Found “${read.found}”, expected ${read.expected}.` };
  return read.mm > 0
    ? { ok: true, mm: read.mm }
    : { ok: false, words: 'Expected a length above 0.' };
}

/** The list as `readStations` reads it. */
export function writeStations(stations: readonly Typed[], unit: 'mm' | 'in'): string {
  return stations
    .map((station) => inColumn({ ...station, text: withUnit(station, unit) }, unit))
    .join(', ');
}

/** The stations of a survey: its plan, or, where it has none, every station that something was done at. */
export function plannedOrRead(state: SurveyState | undefined): readonly Typed[] {
  if (state === undefined || state.plan.stations.length > 0) return state?.plan.stations ?? [];
  const stations = new Map<number, Typed>();
  for (const { placements } of state.survey.lines) {
    for (const { readings, voids, later } of placements) {
      for (const { station } of [...readings, ...voids, ...later]) {
        const key = Math.round(station.mm * 1000);
        if (!stations.has(key)) stations.set(key, station);
      }
    }
  }
  return [...stations.values()].sort((a, b) => a.mm - b.mm);
}
