import type { ArticulationMap } from '../../src/map/types.js';
import type { Song } from '../../src/midi/song.js';
import { mapOf } from '../support/map.js';
import { songOf, type TestNote, type Timed, trackOf } from '../support/song.js';

/** A library of one sound that is loud by a controller, with the levels of that controller. */
export function levelled(controller: number, levels: string): ArticulationMap {
  return mapOf(
    `dynamics: {controller: ${controller}, levels: ${levels}}\narticulations:\n  long: {loudness: controller}\nrules:\n  - use: long\n`,
  );
}

const line: readonly TestNote[] = [
  { tick: 960, end: 1800, pitch: 60, velocity: 60 },
  { tick: 1920, end: 2000, pitch: 64 },
  { tick: 2400, end: 3300, pitch: 67 },
];

/** A line of three notes with other events beside them. */
export function take(others: readonly Timed[]): Song {
  return songOf([trackOf(line, others, 'Flutes')]);
}
