import { diagnostic, spellPitch } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import type { MapCheck } from './check.js';

/**
 * range-reversed: the lowest playable note lies above the highest. beyond-keys: moved by `transpose`, an end of the range
 * would have to be sent on a key that MIDI does not have.
 */
export const playableRange: MapCheck = ({ range, middleC, transpose }, { yaml, isSure }) => {
  const { low, high } = range;
  if (!isSure(range)) return [];
  const beyond = [low, high].find((pitch) => pitch + transpose < 0 || pitch + transpose > 127);
  if (low <= high && beyond !== undefined)
    return [
      diagnostic(
        'beyond-keys',
        placeOf(yaml, ['range']),
        `${spellPitch(beyond, middleC)} would be sent ${Math.abs(transpose)} semitones ${transpose < 0 ? 'lower' : 'higher'}, where MIDI has no key`,
        'see that range and transpose are as in the manual; the range is as it sounds, before the shift',
      ),
    ];
  if (low <= high) return [];
  return [
    diagnostic(
      'range-reversed',
      placeOf(yaml, ['range']),
      `the range begins at ${spellPitch(low, middleC)} and ends below it, at ${spellPitch(high, middleC)}`,
      'write the lowest note first',
    ),
  ];
};
