import { slotOf } from '../../../model/slot.js';
import { placeOf } from '../../yaml/places.js';
import type { MapCheck } from './index.js';

/** slot-used-twice: two messages of one articulation in one slot; the second would undo the first. */
export const slotsUsedTwice: MapCheck = ({ articulations }, yaml) =>
  [...articulations.values()].flatMap(({ name, switch: messages }) =>
    messages.flatMap((message, index) => {
      const slot = slotOf(message);
      if (messages.findIndex((other) => slotOf(other) === slot) === index) return [];
      return [
        {
          code: 'slot-used-twice',
          severity: 'error',
          place: placeOf(yaml, ['articulations', name, 'switch', index]),
          message: `${name} sends two messages to one slot (${slot})`,
          hint: 'keep one of them, or give one a group of its own if the two are independent',
        } as const,
      ];
    }),
  );
