import type { ArticulationMap } from '../map/index.js';

/**
 * A map in which every note gets one articulation, whatever it is like and whatever marks it carries; the map itself
 * where no name is given, undefined where it has no articulation of that name.
 */
export function withOnly(map: ArticulationMap, name: string | undefined): ArticulationMap | undefined {
  if (name === undefined) return map;
  const only = map.articulations.get(name);
  if (!only) return undefined;
  return {
    ...map,
    articulations: new Map([[name, { ...only, means: [] }]]),
    rules: [{ index: 0, use: name, place: only.place }],
    steadiness: 0,
    examples: [],
  };
}
