import type { Slice } from '../slices.js';
import type { Harmonic } from './types.js';

/** What a tone is in its chord. */
export type Tone = 'root' | 'third' | 'fifth' | 'seventh' | 'added';

/** A chord to be laid out: slices of the sketch that follow each other with the same tones, bass and tune. */
export interface ChordToVoice {
  /** Indices of its slices, from one to before another. */
  readonly from: number;
  readonly to: number;
  /** Pitch classes that sound, each with what it is. */
  readonly tones: ReadonlyMap<number, Tone>;
  /** Pitch class of the sketch's lowest note. */
  readonly bass: number;
  /** Pitch of the tune; null where there is none. */
  readonly tune: number | null;
  /** Pitch classes that sound in the tune alone: no other voice needs them. */
  readonly tuneOnly: ReadonlySet<number>;
  /** Pitch classes that are not to be doubled. */
  readonly leading: readonly number[];
  /** Pitch classes of thirds, each with its root: it is not to outnumber that. */
  readonly thirds: readonly (readonly [third: number, root: number])[];
}

/**
 * The chords of a sketch in the order in which they are laid out. Slices that differ in nothing but their strokes are
 * one chord, so that repeated chords stay as they are.
 *
 * @param harmonics one for each slice
 * @param hasTune whether the highest note of each slice is the tune
 */
export function chordsToVoice(
  slices: readonly Slice[],
  harmonics: readonly Harmonic[],
  hasTune: boolean,
): readonly ChordToVoice[] {
  const chords: ChordToVoice[] = [];
  let before = '';
  slices.forEach(({ notes }, index) => {
    const pitches = notes.map(({ pitch }) => pitch);
    const classes = [...new Set(pitches.map((pitch) => pitch % 12))].sort((a, b) => a - b);
    const { roots = [], leading = [] } = harmonics[index] ?? {};
    const bass = (pitches[0] ?? 0) % 12;
    const top = hasTune ? (pitches.at(-1) ?? null) : null;
    const key = JSON.stringify([classes, bass, top, roots, leading]);
    const last = chords.at(-1);
    if (last && key === before) {
      chords[chords.length - 1] = { ...last, to: index + 1 };
      return;
    }
    before = key;
    const under = new Set(hasTune ? pitches.slice(0, -1).map((pitch) => pitch % 12) : classes);
    const ground = roots.find((root) => classes.includes(root)) ?? bass;
    chords.push({
      from: index,
      to: index + 1,
      tones: new Map(
        classes.map((pitchClass) => [pitchClass, toneOf((pitchClass - ground + 12) % 12, classes, ground)]),
      ),
      bass,
      tune: top,
      tuneOnly: new Set(classes.filter((pitchClass) => !under.has(pitchClass))),
      leading,
      thirds: thirdsOf(classes, roots),
    });
  });
  return chords;
}

function thirdsOf(classes: readonly number[], roots: readonly number[]): ChordToVoice['thirds'] {
  const pairs = roots.flatMap((root) => [3, 4].map((third) => [(root + third) % 12, root] as const));
  return pairs.filter(([third]) => classes.includes(third));
}

/** By its interval above the root; an altered fifth is one only where there is no other. */
function toneOf(above: number, classes: readonly number[], root: number): Tone {
  const has = (interval: number) => classes.includes((root + interval) % 12);
  if (above === 0) return 'root';
  if (above === 3 || above === 4) return above === 3 && has(4) ? 'added' : 'third';
  if (above === 7 || ((above === 6 || above === 8) && !has(7))) return 'fifth';
  if (above === 10 || above === 11) return 'seventh';
  return above === 9 && has(6) && has(3) ? 'seventh' : 'added';
}
