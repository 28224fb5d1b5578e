import type { AcrossSide } from './survey.ts';

/** Where a straightedge across lies, at the head of a name: "port", "across the keel". */
export function acrossSideName(side: AcrossSide): string {
  return side === 'both' ? 'across the keel' : side;
}

/** The same within a sentence: "to port", "right across the keel". */
export function acrossSideWords(side: AcrossSide): string {
  return side === 'both' ? 'right across the keel' : `to ${side}`;
}

/** What a panel is called on a figure: "PORT", "PORT TO STARBOARD". */
export function panelName(side: AcrossSide): string {
  return side === 'both' ? 'PORT TO STARBOARD' : side.toUpperCase();
}
