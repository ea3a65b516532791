import type { ArticulationMap } from './keyslip.js';
import { probedLibrary } from './library.js';
import { clickTrack } from './plan/click.js';
import { type ProbeOptions, type ProbePlan, probePlan } from './plan/index.js';
import { probeSong } from './plan/song.js';

/** All that a composer needs to have a library measured. */
export interface Probe {
  readonly plan: ProbePlan;
  /** A Standard MIDI File. */
  readonly midi: Uint8Array;
  /** A WAV file in pieces, to be laid on bar 1; made while it is asked for. */
  click(): Iterable<Uint8Array>;
  /** What to do with both, for a terminal. */
  readonly text: string;
}

/** The probe of a map's library. The same map and options always give the same bytes. */
export function probe(map: ArticulationMap, options: ProbeOptions = {}): Probe {
  const library = probedLibrary(map);
  const plan = probePlan(library, options);
  return {
    plan,
    midi: probeSong(plan, library),
    click: () => clickTrack(plan),
    text: textOf(plan),
  };
}

function textOf({ seconds, slots }: ProbePlan): string {
  const whole = Math.ceil(seconds);
  const minutes = Math.floor(whole / 60);
  const rest = `${whole % 60}`.padStart(2, '0');
  return [
    `${slots.length} notes, ${minutes}:${rest} minutes at 120 quarters a minute.`,
    'Load the library, put the MIDI file on its track at bar 1 and the click sound on a track of its own at bar 1,',
    'set the tempo of the session to 120, leave all sends and effects off, and bounce both together to a stereo WAV.',
    'Keep the click: without it nobody can tell when a note was played, as a marker note carries its own delay.',
    'It is all played at once and loud in places: turn the level of headphones down before you listen.',
    '',
  ].join('\n');
}
