import { type NamedSound, soundMeaning } from './sound.js';
import type { Meaning } from './types.js';

/** A note of the music, and the articulation that was decided for it. */
export interface DecidedNote {
  readonly note: {
    /** Index of its note-on in its track. */
    readonly onIndex: number;
    /** Canonical names of the marks that it carries. */
    readonly marks: Iterable<string>;
  };
  /** The articulation's name in the map. */
  readonly articulation: string;
}

/**
 * What the notes of a part mean, by the index of their note-ons: see `soundMeaning`. Notes of articulations that say
 * nothing of themselves are missing.
 *
 * @param articulations of the map that decided, by name
 */
export function meaningsOfNotes(
  decisions: Iterable<DecidedNote>,
  articulations: ReadonlyMap<string, NamedSound>,
): ReadonlyMap<number, Meaning> {
  const found = new Map<number, Meaning>();
  for (const { note, articulation } of decisions) {
    const sound = articulations.get(articulation);
    const meaning = sound && soundMeaning(sound, note.marks);
    if (meaning) found.set(note.onIndex, meaning);
  }
  return found;
}
