import {
  type Articulation,
  type ArticulationMap,
  counterpartOf,
  type Likeness,
  likenessOf,
} from '../map/index.js';

/** What an articulation of one map becomes in the other. */
export interface Becomes {
  readonly from: string;
  /** null where the other library has nothing for it. */
  readonly to: string | null;
  readonly likeness: Likeness;
}

/** Whether two maps are of one instrument of one library, so that a name means the same in both. */
export function areVersions(a: ArticulationMap, b: ArticulationMap): boolean {
  return a.library === b.library && a.instrument === b.instrument;
}

/** What each articulation becomes in another map, in the order of its own: by name in another version, else by meaning. */
export function becomesIn(a: ArticulationMap, b: ArticulationMap): readonly Becomes[] {
  const offered = [...b.articulations.values()];
  return [...a.articulations.values()].map((wanted): Becomes => {
    const from = wanted.name;
    if (areVersions(a, b))
      return b.articulations.has(from)
        ? { from, to: from, likeness: 'name' }
        : { from, to: null, likeness: 'lost' };
    const { likeness, sound } = counterpartOf(wanted, offered);
    return { from, to: (sound === null ? undefined : offered[sound]?.name) ?? null, likeness };
  });
}

/** How like the articulation that one map gives a note is to what the other gives it, by their names in their maps. */
export function likenessBetween(
  a: ArticulationMap,
  b: ArticulationMap,
): (from: string, to: string) => Likeness {
  if (areVersions(a, b)) return (from, to) => (from === to ? 'name' : 'lost');
  const known = new Map<string, Likeness>();
  return (from, to) => {
    const key = JSON.stringify([from, to]);
    const found = known.get(key) ?? likeness(a.articulations.get(from), b.articulations.get(to));
    known.set(key, found);
    return found;
  };
}

function likeness(from: Articulation | undefined, to: Articulation | undefined): Likeness {
  return from && to ? likenessOf(from, to) : 'lost';
}

/** Whether what a note gets stays what it was; a variation, or the plain sound of a class, is something else. */
export function isKept(likeness: Likeness): boolean {
  return likeness === 'same' || likeness === 'name';
}
