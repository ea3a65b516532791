import { curveThrough } from '../curve.js';
import { differenceOfSeat, panOfSeat, seatOfDifference, seatOfPan } from './pan.js';

/** How much louder the right side becomes than the left at values of controller 10, against 64. Unit: dB. */
export type PanAnswer = ReadonlyMap<number, number>;

/** What values of controller 10 do to a recording. */
export interface PanLaw {
  /** How much louder the right side becomes than the left. Unit: dB. */
  differenceOf(value: number): number;
  /** The value (not rounded) that does it; the nearest that there is, where none does. */
  valueOf(difference: number): number;
}

/** RP-036: mono recordings, and stereo ones whose sides are turned down. */
export const fullLaw: PanLaw = {
  differenceOf: (value) => differenceOfSeat(seatOfPan(value)),
  valueOf: (difference) => panOfSeat(seatOfDifference(difference)),
};

const [lowest, middle, highest] = [1, 64, 127] as const;

/**
 * The law that a recording was measured to follow. Between measured values the place on the stage runs monotone (Fritsch
 * & Carlson 1980); with both ends at the whole stage that is RP-036.
 *
 * @param answer rising, with values for 1 and 127; RP-036 holds where it is absent
 */
export function panLaw(answer: PanAnswer | undefined): PanLaw {
  if (!answer) return fullLaw;
  const points = [...answer, [middle, 0] as const].sort(([a], [b]) => a - b);
  const { valueAt } = curveThrough(points.map(([at, dB]) => ({ at, level: seatOfDifference(dB) })));
  return {
    differenceOf: (value) => differenceOfSeat(valueAt(Math.max(lowest, value))),
    valueOf(difference) {
      const wanted = seatOfDifference(difference);
      // What changes nothing is the middle, whatever else changes nothing.
      if (Math.abs(wanted) < 1e-9) return middle;
      let [low, high]: [number, number] = wanted < 0 ? [lowest, middle] : [middle, highest];
      for (let step = 0; step < 30; step += 1) {
        const between = (low + high) / 2;
        if (valueAt(between) < wanted) low = between;
        else high = between;
      }
      return high;
    },
  };
}
