import { chordOf } from './chord.js';
import { classesOf } from './class-set.js';
import { alteredDegrees, degreeOf } from './degree.js';
import type { Reading } from './fit.js';
import type { Kind } from './kinds.js';
import type { Harmony, Key } from './types.js';

/** What is said of a harmony apart from where it is. */
type Said = Pick<Harmony, 'pitchClasses' | 'chord' | 'key' | 'degree' | 'altered'>;

/**
 * What is said of harmonies, each thing once: the same chords sound again and again, and thousands of harmonies are told
 * with the names and lists of a few hundred.
 */
export class Sayings {
  readonly #known = new Map<Key, Map<Kind | null, Map<number, Said>>>();

  /**
   * @param bass its pitch class
   * @param classes those that sound, as a set
   */
  of(reading: Reading | null, bass: number, classes: number, key: Key): Said {
    const ofKey = entry(this.#known, key, () => new Map<Kind | null, Map<number, Said>>());
    const ofKind = entry(ofKey, reading?.kind ?? null, () => new Map<number, Said>());
    // Twelve bits of classes, four each of bass and root.
    const which = (classes << 8) | (bass << 4) | (reading?.root ?? 0);
    return entry(ofKind, which, () => saidOf(reading, bass, classesOf(classes), key));
  }
}

function saidOf(reading: Reading | null, bass: number, pitchClasses: readonly number[], key: Key): Said {
  return {
    pitchClasses,
    chord: reading && chordOf(reading, bass, key),
    key,
    degree: reading && degreeOf(reading, key),
    altered: alteredDegrees(pitchClasses, key, reading),
  };
}

function entry<K, V>(map: Map<K, V>, key: K, made: () => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const value = made();
  map.set(key, value);
  return value;
}
