import { spellPitch } from '../../../diagnose/pitch.js';
import { placeOf } from '../../yaml/places.js';
import type { MapCheck } from './index.js';

/** range-reversed: the lowest playable note lies above the highest. */
export const playableRange: MapCheck = ({ range: { low, high }, middleC }, yaml) => {
  if (low <= high) return [];
  const message = `the range begins at ${spellPitch(low, middleC)} and ends below it, at ${spellPitch(high, middleC)}`;
  return [
    {
      code: 'range-reversed',
      severity: 'error',
      place: placeOf(yaml, ['range']),
      message,
      hint: 'write the lowest note first',
    },
  ];
};
