// Chords, keys and degrees of what sounds.
import { type Clock, finder } from '../../midi/index.js';
import { qualityOf } from './belonging.js';
import { barGrid, beatGrid, changeGrid, placesIn, unitTicks } from './grid.js';
import { type KeyEvidence, keysOf } from './key.js';
import { keyOf } from './keys.js';
import { readCells, readFound } from './read.js';
import type { ReadStretch } from './read-stretch.js';
import { Sayings } from './said.js';
import { settle } from './settle.js';
import type { Harmony, SoundingNote } from './types.js';

export { isPitched, soundingNotes } from './sounding.js';
export { className, nameFifths, pitchName } from './spelling.js';
export type { Chord, Harmony, Key, SoundingNote } from './types.js';

export interface HarmonyOptions {
  /** One entry for each harmony as it is found, or for each beat or bar, whatever sounds there. */
  readonly per: 'found' | 'beat' | 'bar';
}

const whereNothingSounds = keyOf(0, 'major');

/**
 * What sounds, in order of time; stretches of silence have no entry. `notes` in order of tick, in any voicing and as
 * loosely played as people play. Takes time in proportion to the number of notes.
 */
export function harmonyOf(
  notes: readonly SoundingNote[],
  clock: Clock,
  { per }: HarmonyOptions,
): readonly Harmony[] {
  const settled = settle(notes, clock, changeGrid(clock));
  const found = readFound(settled, clock);
  const unit = unitTicks(clock);
  const keys = keysOf(found.map((read) => evidenceOf(read, unit)));
  const starts = found.map(({ stretch }) => stretch.tick);
  const rows =
    per === 'found' ? found : readCells(settled, per === 'beat' ? beatGrid(clock) : barGrid(clock));
  const [keyAt, placeAt, sayings] = [finder(starts), placesIn(clock), new Sayings()];
  return rows.map(({ stretch, reading }): Harmony => {
    const { tick, endTick, bass, classes } = stretch;
    const key = keys[Math.max(0, keyAt(tick))] ?? whereNothingSounds;
    const { pitchClasses, chord, degree, altered } = sayings.of(reading, bass % 12, classes, key);
    const at = placeAt(tick);
    const [bar, beat] = [at?.bar ?? null, at?.beat ?? null];
    return { tick, endTick, bar, beat, pitchClasses, bass, chord, key, degree, altered };
  });
}

function evidenceOf({ stretch, reading }: ReadStretch, unit: number): KeyEvidence {
  const quality = reading && qualityOf(reading.kind.intervals);
  return {
    length: (stretch.endTick - stretch.tick) / unit,
    classes: stretch.weights,
    chord: reading && quality && { root: reading.root, quality },
  };
}
