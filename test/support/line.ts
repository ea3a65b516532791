import { analyse, type MeasuredLine } from '../../src/compile/analyse/index.js';
import type { Line, MeasuredNote } from '../../src/midi/line.js';
import { mapOf } from './map.js';
import { type SongOptions, songOf, type TestNote, type Timed, trackOf } from './song.js';

/** A map that asks nothing, with settings that tests may add. */
export const plainMap = (more = '') =>
  mapOf(`${more}\narticulations:\n  only: {switch: {note: C0}}\nrules:\n  - use: only\n`);

/** A line of one track, measured. At ppq 480 and 120 bpm, a tick is 1.0417 ms and 96 ticks are 100 ms. */
export function lineOfNotes(
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
  options: SongOptions = {},
  map = plainMap(),
): MeasuredLine {
  const song = songOf([trackOf(notes, others)], options);
  return analyse(song, { track: 1, trackName: '', channel: 0 }, map).line;
}

/** Notes one after another: lengths and distances in ms, at ppq 500 and 120 bpm (a tick is a millisecond). */
export const msTicks: SongOptions = { ppq: 500 };

/** A note of a line, or an error. */
export function noteAt(line: Line, index: number): MeasuredNote {
  const note = line.notes[index];
  if (!note) throw new Error(`the line has no note ${index}`);
  return note;
}
