import type { ProbedLibrary } from '../library.js';

/** The keys of the range that switch nothing, from the lowest. */
export function playableKeys({ range, articulations }: ProbedLibrary): readonly number[] {
  const switches = new Set(
    articulations.flatMap((one) =>
      one.switch.flatMap((message) => (message.kind === 'note' ? message.key : [])),
    ),
  );
  const keys = Array.from({ length: range.high - range.low + 1 }, (_, index) => range.low + index);
  return keys.filter((key) => !switches.has(key));
}

/** Pitches spread over the keys, each in the middle of its share; fewer where there are fewer keys. */
export function spreadPitches(keys: readonly number[], count: number): readonly number[] {
  const places = Array.from({ length: count }, (_, index) =>
    Math.floor(((index + 0.5) / count) * keys.length),
  );
  return [...new Set(places.flatMap((place) => keys[place] ?? []))];
}

/** A fifth: of the new note's harmonics two in three lie far from all of the old one's. */
const fifth = 7;

/**
 * Pairs of notes to be joined: a fifth up and a fifth down, in the lower and in the upper half. Fewer where the keys
 * have no fifth.
 */
export function joinedPairs(keys: readonly number[], count: number): readonly (readonly [number, number])[] {
  const has = new Set(keys);
  const from = spreadPitches(
    keys.filter((key) => has.has(key + fifth)),
    Math.ceil(count / 2),
  );
  const pairs = from.flatMap((low) => [[low, low + fifth] as const, [low + fifth, low] as const]);
  return pairs.slice(0, count);
}
