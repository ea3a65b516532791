import type { Diagnostic } from '../../diagnostics/index.js';
import type { Source } from '../source/index.js';
import type { ArticulationMap } from '../types.js';

/** One thing that a map of the right shape may still have wrong. Parts of it that are not sure are let be. */
export type MapCheck = (map: ArticulationMap, source: Source) => readonly Diagnostic[];
