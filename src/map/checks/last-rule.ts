import { diagnostic } from '../../diagnostics/index.js';
import type { MapCheck } from './check.js';

/** no-last-rule: the last rule asks for something, so that a note might fit none. */
export const missingLastRule: MapCheck = ({ rules }) => {
  const last = rules.at(-1);
  if (!last || (!last.when && !last.marked)) return [];
  return [
    diagnostic(
      'no-last-rule',
      last.place,
      'the last rule has a condition: a note that fits no rule would get no articulation',
      'end the rules with one that has use alone',
    ),
  ];
};
