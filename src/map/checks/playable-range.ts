import { diagnostic, spellPitch } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import type { MapCheck } from './check.js';

/** range-reversed: the lowest playable note lies above the highest. */
export const playableRange: MapCheck = ({ range, middleC }, { yaml, isSure }) => {
  const { low, high } = range;
  if (low <= high || !isSure(range)) return [];
  return [
    diagnostic(
      'range-reversed',
      placeOf(yaml, ['range']),
      `the range begins at ${spellPitch(low, middleC)} and ends below it, at ${spellPitch(high, middleC)}`,
      'write the lowest note first',
    ),
  ];
};
