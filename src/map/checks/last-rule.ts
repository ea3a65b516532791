import type { MapCheck } from './check.js';

/** no-last-rule: the last rule asks for something, so that a note might fit none. */
export const missingLastRule: MapCheck = ({ rules }) => {
  const last = rules.at(-1);
  if (!last || (!last.when && !last.marked)) return [];
  return [
    {
      code: 'no-last-rule',
      severity: 'error',
      place: last.place,
      message: 'the last rule has a condition: a note that fits no rule would get no articulation',
      hint: 'end the rules with one that has use alone',
    },
  ];
};
