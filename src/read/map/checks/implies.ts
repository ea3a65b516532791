import type { Condition } from '../../../model/map.js';
import { intervalOf, isCovered, unionKey } from './intervals.js';

/** How deep conditions inside conditions are compared; what lies deeper counts as not implied. */
const deepest = 6;

/** Whether every note that fits `narrow` certainly fits `wide`. May say no where the answer is yes, never the reverse. */
export function implies(narrow: Condition, wide: Condition, depth = 0): boolean {
  if (depth > deepest) return false;
  const deeper = depth + 1;
  if (wide.key === 'all') return wide.of.every((member) => implies(narrow, member, deeper));
  if (narrow.key === 'any') return narrow.of.every((member) => implies(member, wide, deeper));
  if (wide.key === 'any' && wide.of.some((member) => implies(narrow, member, deeper))) return true;
  if (narrow.key === 'all') return narrow.of.some((member) => implies(member, wide, deeper));
  if (narrow.key === 'not' && wide.key === 'not') return implies(wide.of, narrow.of, deeper);
  return impliesSingle(narrow, wide);
}

function impliesSingle(narrow: Condition, wide: Condition): boolean {
  const [inner, outer] = [intervalOf(narrow), intervalOf(wide)];
  if (inner && outer) return unionKey(inner) === unionKey(outer) && isCovered(inner, [outer]);
  if (narrow.key === 'run' && wide.key === 'run')
    return (
      narrow.notes >= wide.notes &&
      implies({ key: 'pace', range: narrow.pace }, { key: 'pace', range: wide.pace })
    );
  return JSON.stringify(narrow) === JSON.stringify(wide);
}
