import * as v from 'valibot';

import { angleFigure, placeFigure, sizeFigure, speedFigure } from './figurePieces.ts';
import { defineKind } from './kind.ts';
import { words } from './pieces.ts';

/** What must be known of a hull before its running trim can be told. Every field may wait. A correction is a new entry that
 *  strikes the former. */
export const runningParticularsKind = defineKind({
  kind: 'running particulars',
  scope: 'hull',
  refers: [],
  schema: v.looseObject({
    /** Between the chines, and the deadrise, over the part of the bottom that runs wet. */
    beam: v.exactOptional(sizeFigure),
    deadrise: v.exactOptional(angleFigure),
    /** Keel from the transom to where it rises to the bow. */
    straightKeel: v.exactOptional(sizeFigure),
    water: v.exactOptional(v.picklist(['sea', 'fresh'], 'expected sea or fresh')),
    /** Speeds to look at, and the one where the complaint is. */
    slowest: v.exactOptional(speedFigure),
    fastest: v.exactOptional(speedFigure),
    at: v.exactOptional(speedFigure),
    /** LCG to come back to, where no load as designed is known. */
    lcgWanted: v.exactOptional(placeFigure),
    /** The propeller's hub: forward of the transom, above the keel; and how the drive is trimmed, positive out. */
    hubX: v.exactOptional(placeFigure),
    hubHeight: v.exactOptional(placeFigure),
    driveTrim: v.exactOptional(angleFigure),
    /** Tabs as they are set: fore and aft, width of both together, angle down. */
    tabChord: v.exactOptional(sizeFigure),
    tabWidth: v.exactOptional(sizeFigure),
    tabAngle: v.exactOptional(angleFigure),
    /** Key of the survey whose tail angle is taken; absent: the last that gives one. */
    survey: v.exactOptional(words),
  }),
});
