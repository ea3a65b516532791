import type { Clock } from '../midi/index.js';
import { type Harmony, harmonyOf, type SoundingNote } from '../music/index.js';
import { type Slice, slicesOf } from './slices.js';
import { type Harmonic, type Voiced, type VoiceOptions, type VoicePart, voiceChords } from './voice/index.js';

/** So often parts are laid out anew at most. */
const mostRounds = 4;

/**
 * Lays a sketch out for parts (see `voiceChords`) and listens to the result: where a chord is heard otherwise than in
 * the sketch, as may be when a tone is left out or another weighs more, it is laid out again so that it is good in both
 * hearings, a few times at most.
 *
 * @param notes of the sketch, in order of tick
 */
export function voiceSketch(
  notes: readonly SoundingNote[],
  clock: Clock,
  parts: readonly VoicePart[],
  options: VoiceOptions,
): Voiced {
  const slices = slicesOf(notes, clock);
  let harmonics = harmonicsOf(slices, harmonyOf(notes, clock, { per: 'found' }));
  for (let round = 1; ; round++) {
    const voiced = voiceChords(slices, harmonics, parts, options);
    if (round === mostRounds || voiced.parts.length === 0) return voiced;
    const heard = harmonicsOf(slices, harmonyOf(soundingOf(voiced), clock, { per: 'found' }));
    const both = harmonics.map((one, index) => joined(one, heard[index]));
    if (JSON.stringify(both) === JSON.stringify(harmonics)) return voiced;
    harmonics = both;
  }
}

/** What each slice is heard as, by the harmony that holds in its middle. */
export function harmonicsOf(slices: readonly Slice[], harmony: readonly Harmony[]): readonly Harmonic[] {
  let at = 0;
  return slices.map(({ tick, endTick }): Harmonic => {
    const middle = (tick + endTick) / 2;
    for (let next = harmony[at + 1]; next && next.tick <= middle; next = harmony[at + 1]) at += 1;
    const found = harmony[at];
    const root = found?.chord?.root;
    if (!found || root === undefined) return { roots: [], leading: [] };
    const degree = (root - found.key.tonic + 12) % 12;
    const leads = degree === 7 || degree === 11;
    return { roots: [root], leading: leads ? [(found.key.tonic + 11) % 12] : [] };
  });
}

function joined(one: Harmonic, other: Harmonic | undefined): Harmonic {
  const all = (first: readonly number[], more: readonly number[] = []) => [...new Set([...first, ...more])];
  return { roots: all(one.roots, other?.roots), leading: all(one.leading, other?.leading) };
}

function soundingOf({ parts }: Voiced): readonly SoundingNote[] {
  const notes = parts.flatMap(({ notes: own }, part) => own.map((note) => ({ ...note, part })));
  return notes.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch || a.part - b.part);
}
