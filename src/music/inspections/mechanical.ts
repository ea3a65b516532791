import { defaultChordWindow } from '../../map/index.js';
import type { Part, Song, Track } from '../../midi/index.js';
import { clockOf, groupOnsets, pairedNotes } from '../../midi/index.js';
import { type Measure, type MeasureName, measureMechanical } from '../mechanical/index.js';

/**
 * Controllers that shape loudness while notes are held: modulation, breath, channel volume and expression (MIDI 1.0),
 * of which libraries take one or the other.
 */
const dynamicsControllers = new Set([1, 2, 7, 11]);

/** What was found in one part. */
export interface Inspected {
  readonly part: Part;
  readonly notes: number;
  readonly measures: readonly (Measure & { readonly mends: string })[];
}

/** What mends what sounds mechanical; names of options where keyslip has one. */
const mends: { readonly [M in MeasureName]: string } = {
  'exact-onsets':
    '--loosen 8ms moves single notes off the grid, and --pull 60% leaves a played line where it breathes',
  'unspread-chords': '--roll 18ms spreads chords as several players would',
  'same-velocities': 'play the line in again, or draw velocities that follow its phrases',
  'same-lengths': '--joins gives each articulation the overlap and the lengths of its map',
  'no-dynamics': 'record a pass with the modulation wheel or a breath controller over these bars',
};

/** Measures what sounds mechanical in parts of a recording, as it stands in the file. */
export function inspect(song: Song, parts: readonly Part[]): readonly Inspected[] {
  return parts.flatMap((part) => {
    const track = song.tracks[part.track - 1];
    return track ? [inspectPart(song, track, part)] : [];
  });
}

function inspectPart(song: Song, track: Track, part: Part): Inspected {
  const clock = clockOf(song, part.track);
  const { notes } = pairedNotes(track, part.channel);
  const onsets = groupOnsets(notes, clock, defaultChordWindow).map((group) => ({
    tick: group[0]?.tick ?? 0,
    notes: group,
  }));
  const measures = measureMechanical({ clock, onsets, dynamics: dynamicsTicks(track, part.channel) });
  return {
    part,
    notes: notes.length,
    measures: measures.map((measure) => ({ ...measure, mends: mends[measure.measure] })),
  };
}

function dynamicsTicks(track: Track, channel: number): readonly number[] {
  return track.events.flatMap((event, index) =>
    event.type === 'controller' && event.channel === channel && dynamicsControllers.has(event.controllerType)
      ? [track.ticks[index] ?? 0]
      : [],
  );
}
