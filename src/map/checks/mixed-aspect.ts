import { diagnostic, quoted } from '../../diagnostics/index.js';
import { aspectOf, subjectOf } from '../switch-messages/index.js';
import type { MapCheck } from './check.js';

/**
 * mixed-aspect: one key, one controller or the program stands in two aspects, so that setting the one changes the other,
 * which the compiler believes to be as it was.
 */
export const mixedAspects: MapCheck = ({ articulations }) => {
  const first = new Map<string, { readonly aspect: string; readonly name: string }>();
  return [...articulations.values()].flatMap(({ name, place, switch: messages }) =>
    messages.flatMap((message) => {
      const what = subjectOf(message);
      const aspect = aspectOf(message);
      const known = first.get(what);
      if (!known) first.set(what, { aspect, name });
      if (!known || known.aspect === aspect) return [];
      return [
        diagnostic(
          'mixed-aspect',
          place,
          `${quoted(name)} sets the ${what} in another aspect than ${quoted(known.name)} does`,
          'it is one and the same in the library: give it the same aspect everywhere, or none',
        ),
      ];
    }),
  );
};
