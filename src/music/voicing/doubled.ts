import type { Chord, Key } from '../harmony/index.js';
import type { ChordTone, Doubled, VoicedPitch, VoicedSpan } from './types.js';

/** Pitch classes that sound more than once, from that of the lowest pitch upward. */
export function doubledOf(
  pitches: readonly VoicedPitch[],
  { chord, key }: Pick<VoicedSpan, 'chord' | 'key'>,
): readonly Doubled[] {
  const classes = new Map<number, VoicedPitch[]>();
  for (const voiced of pitches) {
    const same = classes.get(voiced.pitch % 12);
    if (same) same.push(voiced);
    else classes.set(voiced.pitch % 12, [voiced]);
  }
  return [...classes].flatMap(([pitchClass, of]): Doubled[] => {
    const times = of.reduce((sum, { parts }) => sum + parts.length, 0);
    if (times < 2) return [];
    const unison = times > of.length;
    return [
      {
        pitchClass,
        tone: chord ? toneOf(pitchClass, chord) : null,
        leading: isLeading(pitchClass, chord, key),
        by: of.length === 1 ? 'unison' : unison ? 'both' : 'octaves',
        times,
        pitches: of.map(({ pitch }) => pitch),
        parts: [...new Set(of.flatMap(({ parts }) => parts))].sort((a, b) => a - b),
      },
    ];
  });
}

/** Which tone of the chord a pitch class is, by its interval above the root. */
function toneOf(pitchClass: number, { root, intervals }: Chord): ChordTone {
  const above = (pitchClass - root + 12) % 12;
  const has = (...wanted: number[]) => wanted.some((interval) => intervals.includes(interval));
  if (above === 0) return 'root';
  if (above === 3 || above === 4) return 'third';
  if (above === 7 || ((above === 6 || above === 8) && !has(7))) return 'fifth';
  if (above === 10 || above === 11 || (above === 9 && has(6) && !has(7, 10, 11))) return 'seventh';
  return 'added';
}

/** The seventh degree, a semitone below the tonic, in a chord on the fifth or on itself: there it leads to the tonic. */
function isLeading(pitchClass: number, chord: Chord | null | undefined, key: Key | undefined): boolean {
  if (!chord || !key || (pitchClass + 1) % 12 !== key.tonic) return false;
  const degree = (chord.root - key.tonic + 12) % 12;
  return degree === 7 || degree === 11;
}
