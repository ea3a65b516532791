import { diagnostic, spellPitch, spellShift } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import type { MapCheck } from './check.js';

/**
 * range-reversed: the lowest playable note lies above the highest. beyond-keys: moved by `transpose`, an end of the range
 * would have to be sent on a key that MIDI does not have.
 */
export const playableRange: MapCheck = ({ range, middleC, transpose }, { yaml, isSure }) => {
  const { low, high } = range;
  if (!isSure(range)) return [];
  const place = placeOf(yaml, ['range']);
  if (low > high)
    return [
      diagnostic(
        'range-reversed',
        place,
        `the range begins at ${spellPitch(low, middleC)} and ends below it, at ${spellPitch(high, middleC)}`,
        'write the lowest note first',
      ),
    ];
  const beyond = [low, high].find((pitch) => pitch + transpose < 0 || pitch + transpose > 127);
  if (beyond === undefined) return [];
  return [
    diagnostic(
      'beyond-keys',
      place,
      `${spellPitch(beyond, middleC)} would be sent ${spellShift(transpose)}, where MIDI has no key`,
      'see that range and transpose are as in the manual; the range is as it sounds, before the shift',
    ),
  ];
};
