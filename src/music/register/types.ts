import type { BarRange } from '../../midi/index.js';
import type { InstrumentName, PitchRange } from '../instruments/index.js';

/** A part whose register is looked at. */
export interface RegisterPart {
  readonly name: string;
  /** General MIDI program as it stands in the file, 0–127. */
  readonly program?: number;
  /** What its recording can play, as the map says it (MIDI notes). */
  readonly range?: PitchRange;
}

export type Role = 'melody' | 'bass' | 'harmony';

export type Third = 'dark' | 'middle' | 'bright';

/** Notes that leave a range. */
export interface Outside {
  readonly notes: number;
  readonly range: PitchRange;
  readonly lowest: number;
  readonly highest: number;
  /** Empty for files without bars. */
  readonly bars: readonly BarRange[];
}

/** Something to consider about where a part lies. */
export interface RegisterObservation {
  readonly what: 'low melody' | 'high bass' | 'high line';
  /** null for files without bars. */
  readonly bars: BarRange | null;
  /** Of the notes that it is about. */
  readonly lowest: number;
  readonly highest: number;
  /** The part that plays close beneath a low melody, as loud or louder by its velocities. */
  readonly under?: number;
}

/** Where a part lies. */
export interface Register {
  /** Its index among the parts that were given. */
  readonly part: number;
  readonly name: string;
  /** The name of its instrument in the table of ranges; null where neither name nor program tells. */
  readonly instrument: InstrumentName | null;
  readonly role: Role;
  readonly notes: number;
  readonly lowest: number;
  readonly highest: number;
  /** Mean pitch by length of notes. */
  readonly mean: number;
  /** What the thirds are of: the instrument's range, else the map's; null where there is neither. */
  readonly range: PitchRange | null;
  /** Share of its sounding time in each third of the range: together 1. */
  readonly thirds: Readonly<Record<Third, number>> | null;
  /** Notes that the instrument does not have; null where there are none, or the instrument is not known. */
  readonly outsideInstrument: Outside | null;
  /** Notes that the recording does not have; null where there are none, or no range was given. */
  readonly outsideRecording: Outside | null;
  readonly observations: readonly RegisterObservation[];
}
