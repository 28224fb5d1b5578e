/** Where the anti-ventilation plate stands against the rule of thumb. */
export interface EngineHeight {
  readonly says: 'about right' | 'low' | 'high';
  /** Where the rule puts it, mm above the bottom at the transom. */
  readonly low: number;
  readonly high: number;
  /** How far outside that, mm; 0 within. */
  readonly by: number;
}

/** Allowed either way: half an inch. A house default. */
const ABOUT = 12.7;

/** Rule of thumb, common practice, no source, and rules differ: the plate about level with the bottom at the transom; on a
 *  bracket 1 in higher for each 8 to 12 in of setback.
 *  `setback`: from the transom aft to the engine's mounting, mm, 0 or more. `plate`: its height above the bottom carried
 *  straight aft, mm, below negative. Throws RangeError on a setback below 0 or a figure that is none. */
export function engineHeight(setback: number, plate: number): EngineHeight {
  if (!(setback >= 0 && setback < Infinity)) {
    throw new RangeError(`a setback of 0 or more expected, got ${setback}`);
  }
  if (!Number.isFinite(plate)) throw new RangeError(`a height expected, got ${plate}`);
  const low = setback / 12;
  const high = setback / 8;
  if (plate < low - ABOUT) return { says: 'low', low, high, by: low - plate };
  if (plate > high + ABOUT) return { says: 'high', low, high, by: plate - high };
  return { says: 'about right', low, high, by: 0 };
}
