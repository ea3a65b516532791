// Everything in which a map gets in its own way, one file each.
import type { Diagnostic } from '../../diagnostics/index.js';
import type { Source } from '../source/index.js';
import type { ArticulationMap } from '../types.js';
import { aspectsLeftBehind } from './aspect-left-behind.js';
import { aspectsUsedTwice } from './aspect-used-twice.js';
import type { MapCheck } from './check.js';
import { deadRules } from './dead-rule.js';
import { examplesInRange } from './examples-in-range.js';
import { hiddenArticulations } from './hidden-articulation.js';
import { missingLastRule } from './last-rule.js';
import { soundingLoudness } from './loudness.js';
import { mixedAspects } from './mixed-aspect.js';
import { ownKeys } from './own-key.js';
import { playableRange } from './playable-range.js';
import { sameSwitches } from './same-switch.js';
import { switchesInRange } from './switch-in-range.js';

const checks: readonly MapCheck[] = [
  playableRange,
  aspectsUsedTwice,
  mixedAspects,
  sameSwitches,
  hiddenArticulations,
  switchesInRange,
  ownKeys,
  soundingLoudness,
  aspectsLeftBehind,
  deadRules,
  missingLastRule,
  examplesInRange,
];

/** Everything in which a map gets in its own way. */
export function checkMap(map: ArticulationMap, source: Source): readonly Diagnostic[] {
  return checks.flatMap((check) => check(map, source));
}
