import { diagnostic, quoted } from '../../diagnostics/index.js';
import { slotOf, subjectOf } from '../switch-messages/index.js';
import type { MapCheck } from './check.js';

/**
 * mixed-slot: one key, one controller or the program stands in two slots, so that setting the one changes the other,
 * which the compiler believes to be as it was.
 */
export const mixedSlots: MapCheck = ({ articulations }) => {
  const first = new Map<string, { readonly slot: string; readonly name: string }>();
  return [...articulations.values()].flatMap(({ name, place, switch: messages }) =>
    messages.flatMap((message) => {
      const what = subjectOf(message);
      const slot = slotOf(message);
      const known = first.get(what);
      if (!known) first.set(what, { slot, name });
      if (!known || known.slot === slot) return [];
      return [
        diagnostic(
          'mixed-slot',
          place,
          `${quoted(name)} sets the ${what} in another group than ${quoted(known.name)} does`,
          'it is one and the same in the library: give it the same group everywhere, or none',
        ),
      ];
    }),
  );
};
