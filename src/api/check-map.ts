import { runExamples } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { type ArticulationMap, readMap } from '../map/index.js';
import { bytesOf } from './music.js';

export interface CheckMapOptions {
  /** The map's name in diagnostics; `map.yaml` where it is absent. */
  readonly name?: string;
}

export interface CheckMapResult {
  /** The map as it is understood; undefined where it has errors. */
  readonly map: ArticulationMap | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Checks a map and runs its examples.
 *
 * @param yaml the map's text
 */
export function checkMap(yaml: string, { name = 'map.yaml' }: CheckMapOptions = {}): CheckMapResult {
  const { value: map, diagnostics } = readMap(bytesOf(yaml), name);
  return { map, diagnostics: [...diagnostics, ...(map ? runExamples(map) : [])] };
}
