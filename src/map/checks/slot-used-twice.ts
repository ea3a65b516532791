import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import { slotOf } from '../switch-messages/index.js';
import type { MapCheck } from './check.js';

/** slot-used-twice: two messages of one articulation in one slot; the second would undo the first. */
export const slotsUsedTwice: MapCheck = ({ articulations }, { yaml, isSure }) =>
  [...articulations.values()].filter(isSure).flatMap(({ name, switch: messages }) => {
    const seen = new Set<string>();
    return messages.flatMap((message, index): readonly Diagnostic[] => {
      const slot = slotOf(message);
      if (seen.size === seen.add(slot).size)
        return [
          diagnostic(
            'slot-used-twice',
            placeOf(yaml, ['articulations', name, 'switch', index]),
            `${quoted(name)} sends two messages to one slot (${slot})`,
            'keep one of them, or give one a group of its own if the two are independent',
          ),
        ];
      return [];
    });
  });
