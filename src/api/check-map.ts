import { runExamples } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { givenMap } from './music.js';
import type { BaseTexts } from './parts.js';

export interface CheckMapOptions {
  /** The map's name in diagnostics; `map.yaml` where it is absent. */
  readonly name?: string;
  /** Texts of the files that lend to it (`base`), by their paths from its folder. */
  readonly bases?: BaseTexts;
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
export function checkMap(yaml: string, { name, bases }: CheckMapOptions = {}): CheckMapResult {
  const { value: map, diagnostics } = givenMap(yaml, name, bases);
  return { map, diagnostics: [...diagnostics, ...(map ? runExamples(map) : [])] };
}
