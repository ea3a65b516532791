import { defaultChordWindow } from '../../map/index.js';
import {
  clockOf,
  controllerEvents,
  formatBars,
  onsetsOf,
  type Part,
  pairNotes,
  partHeading,
  type Song,
  type Track,
  tickOf,
} from '../../midi/index.js';
import { isPitched } from '../harmony/index.js';
import { isStruck } from '../instruments/index.js';
import { type Measure, type MeasureName, measureMechanical } from '../mechanical/index.js';
import type { Inspection } from './inspection.js';
import { firstProgram } from './sections.js';

/**
 * Controllers that shape loudness while notes are held: modulation, breath, channel volume and expression (MIDI 1.0),
 * of which libraries take one or the other.
 */
const dynamicsControllers = [1, 2, 7, 11];

/** What was found in one part. */
export interface MechanicalPart {
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
export function measureParts(song: Song, parts: readonly Part[]): readonly MechanicalPart[] {
  return parts.flatMap((part) => {
    const track = song.tracks[part.track - 1];
    return track ? [inspectPart(song, track, part)] : [];
  });
}

function inspectPart(song: Song, track: Track, part: Part): MechanicalPart {
  const clock = clockOf(song, part.track);
  const { notes } = pairNotes(track.columns, part.channel);
  const onsets = onsetsOf(notes, clock, defaultChordWindow);
  const program = firstProgram(track, part.channel);
  const fades = !isPitched(part) || isStruck(part.trackName, program);
  const dynamics = dynamicsTicks(track, part.channel);
  const measures = measureMechanical({ clock, notes, onsets, dynamics }).filter(
    // Nothing that is struck or plucked gets louder while it is held: nobody needs a wheel there.
    ({ measure }) => !fades || measure !== 'no-dynamics',
  );
  return {
    part,
    notes: notes.length,
    measures: measures.map((measure) => ({ ...measure, mends: mends[measure.measure] })),
  };
}

function dynamicsTicks({ columns }: Track, channel: number): readonly number[] {
  return controllerEvents(columns, channel, ...dynamicsControllers).map((event) => tickOf(columns, event));
}

const says: { readonly [M in MeasureName]: (count: number, of: number) => string } = {
  'exact-onsets': (count, of) => `${count} of ${of} onsets stand exactly on the grid`,
  'unspread-chords': (count, of) => `${count} of ${of} chords are struck at one instant`,
  'same-velocities': (count, of) => `${count} of ${of} notes repeat the velocity before them`,
  'same-lengths': (count, of) => `${count} of ${of} notes repeat the length before them`,
  'no-dynamics': (count, of) => `${count} of ${of} bars have no dynamics controller`,
};

/** What was found in a part, in plain sentences: what is heard as mechanical, where, and what mends it. */
export function partText({ part, notes, measures }: MechanicalPart): string {
  const heading = `${partHeading(part)}: ${notes} notes`;
  const lines = measures.flatMap(({ measure, count, of, bars, mends }) => {
    const said = `  ${says[measure](count, of)}`;
    return bars.length === 0
      ? [said]
      : [`${said}; heard as mechanical in ${formatBars(bars)}`, `      ${mends}`];
  });
  return [heading, ...lines].join('\n');
}

/** What makes the playing of each part sound mechanical, and what mends it. */
export const mechanical: Inspection<readonly MechanicalPart[]> = {
  name: 'parts',
  look: ({ song, parts }) => measureParts(song, parts),
  text: (found) => found.map(partText).join('\n\n'),
  json: (found) =>
    found.map(({ part, notes, measures }) => ({
      track: part.track,
      name: part.trackName,
      channel: part.channel + 1,
      notes,
      measures,
    })),
  // A sheet is of music that is compiled already, with its timing.
  remarks: () => [],
};
