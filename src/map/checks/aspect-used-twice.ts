import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import { aspectOf } from '../switch-messages/index.js';
import type { MapCheck } from './check.js';

/** aspect-used-twice: two messages of one articulation in one aspect; the second would undo the first. */
export const aspectsUsedTwice: MapCheck = ({ articulations }, { yaml, isSure }) =>
  [...articulations.values()].filter(isSure).flatMap(({ name, switch: messages }) => {
    const seen = new Set<string>();
    return messages.flatMap((message, index): readonly Diagnostic[] => {
      const aspect = aspectOf(message);
      if (seen.size === seen.add(aspect).size)
        return [
          diagnostic(
            'aspect-used-twice',
            placeOf(yaml, ['articulations', name, 'switch', index]),
            `${quoted(name)} sends two messages to one aspect (${aspect})`,
            'keep one of them, or give one an aspect of its own (aspect: NAME) if the two are independent',
          ),
        ];
      return [];
    });
  });
