import { type Diagnostic, diagnostic, quoted, spellPitch, spellShift } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import { takenBy } from '../switch-messages/index.js';
import type { MapCheck } from './check.js';

/** switch-in-range: a switch key that is also a playable note. */
export const switchesInRange: MapCheck = ({ articulations, range, middleC, transpose }, { yaml, isSure }) => {
  // Of the keys that are sent.
  const [low, high] = [range.low + transpose, range.high + transpose];
  if (!isSure(range)) return [];
  return [...articulations.values()].filter(isSure).flatMap(({ name, switch: messages }) =>
    messages.flatMap((message, index): readonly Diagnostic[] => {
      const { key } = takenBy(message);
      if (key === undefined || key < low || key > high) return [];
      return [
        diagnostic(
          'switch-in-range', // The message's own place, or that of the switch where it is not a list.
          placeOf(yaml, ['articulations', name, 'switch', index]),
          `the switch ${spellPitch(key, middleC)} of ${quoted(name)} lies inside the playable range, ${spellPitch(low, middleC)} to ${spellPitch(high, middleC)}${transpose === 0 ? '' : ` as it is sent, ${spellShift(transpose)} than written`}`,
          'see that note-60 and the range are as in the manual; an octave off is the usual cause',
        ),
      ];
    }),
  );
};
