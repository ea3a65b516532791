import { classOfFifths, degreeOfFifths, mod, nameOfFifths, plainly } from './fifths.js';
import { tonicFifths } from './keys.js';
import { type Kind, kindWith } from './kinds.js';
import type { Harmony, Key } from './types.js';

/** A chord as far as spelling needs it. */
export interface Rooted {
  readonly root: number;
  readonly kind: Kind;
}

/** How the twelve notes above a tonic are spelled: ♭2 ♭3 ♯4 ♭6 ♭7, as they are borrowed (common practice, no source). */
const aboveTonic: readonly number[] = [0, -5, 2, -3, 4, -1, 6, 1, -4, 3, -2, 5];
/** Roots of diminished chords lead upwards: ♯1 ♯2 ♯5 rather than ♭2 ♭3 ♭6. */
const leading: ReadonlyMap<number, number> = new Map([
  [1, 7],
  [3, 9],
  [8, 8],
]);

/** A chord's root on the line of fifths, counted from the tonic of the key. */
export function rootFifths({ root, kind }: Rooted, key: Key): number {
  const above = mod(root - key.tonic, 12);
  const diminished = kind.intervals.includes(3) && kind.intervals.includes(6) && !kind.intervals.includes(7);
  const leads = diminished && (above === 1 || key.mode === 'major') ? leading.get(above) : undefined;
  return leads ?? aboveTonic[above] ?? 0;
}

/** A sounding pitch class on the line of fifths, counted from the tonic: as the chord's tone, else as the key's degree. */
export function fifthsOf(pitchClass: number, key: Key, chord: Rooted | null): number {
  if (chord) {
    const above = mod(pitchClass - chord.root, 12);
    const tone = chord.kind.fifths.find((place) => classOfFifths(place) === above);
    if (tone !== undefined) return rootFifths(chord, key) + tone;
  }
  return aboveTonic[mod(pitchClass - key.tonic, 12)] ?? 0;
}

/** The note's name where a chord sounds in a key: "E♭" in C minor, "C♯" in A7. */
export function spell(pitchClass: number, key: Key, chord: Rooted | null): string {
  return nameOfFifths(placeOf(pitchClass, key, chord));
}

/** The place of a pitch class's name on the line of fifths (F −1, C 0, G 1) where it sounds. */
export function nameFifths(pitchClass: number, at: Pick<Harmony, 'key' | 'chord'>): number {
  return placeOf(pitchClass, at.key, rootedOf(at));
}

/** A pitch class as it is written where it sounds: "E♭". */
export function className(pitchClass: number, at: Pick<Harmony, 'key' | 'chord'>): string {
  return spell(pitchClass, at.key, rootedOf(at));
}

/** A pitch as it is written where it sounds, 60 as C4: "E♭3". */
export function pitchName(pitch: number, at: Pick<Harmony, 'key' | 'chord'>): string {
  const place = placeOf(mod(pitch, 12), at.key, rootedOf(at));
  const natural = pitch - degreeOfFifths(place).alteration;
  return `${nameOfFifths(place)}${Math.floor(natural / 12) - 1}`;
}

function placeOf(pitchClass: number, key: Key, chord: Rooted | null): number {
  return plainly(tonicFifths(key) + fifthsOf(pitchClass, key, chord));
}

function rootedOf({ chord }: Pick<Harmony, 'chord'>): Rooted | null {
  const kind = chord && kindWith(chord.intervals);
  return kind ? { root: chord.root, kind } : null;
}
