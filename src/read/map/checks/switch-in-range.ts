import { spellPitch } from '../../../diagnose/pitch.js';
import { placeOf } from '../../yaml/places.js';
import type { MapCheck } from './index.js';

/** switch-in-range: a switch key that is also a playable note. */
export const switchesInRange: MapCheck = ({ articulations, range: { low, high }, middleC }, yaml) =>
  [...articulations.values()].flatMap(({ name, switch: messages }) =>
    messages.flatMap((message, index) => {
      if (message.kind !== 'note' || message.key < low || message.key > high) return [];
      const path = ['articulations', name, 'switch', ...(messages.length > 1 ? [index] : [])];
      const range = `${spellPitch(low, middleC)} to ${spellPitch(high, middleC)}`;
      return [
        {
          code: 'switch-in-range',
          severity: 'error',
          place: placeOf(yaml, path),
          message: `the switch ${spellPitch(message.key, middleC)} of ${name} lies inside the playable range ${range}`,
          hint: 'see that note-60 is as in the manual; an octave off is the usual cause',
        } as const,
      ];
    }),
  );
