import type { Articulation, ArticulationMap, Duration, LevelTable, SwitchMessage } from './keyslip.js';

/** What has to be known of an articulation to play it, and to understand what comes back. */
export interface ProbedArticulation {
  readonly name: string;
  readonly switch: readonly SwitchMessage[];
  readonly loudness: 'velocity' | 'controller';
  /** Whether its notes sound as long as they are held, as far as the map tells. */
  readonly sustains: boolean;
  /** How far a joined note is held over the next; absent where the recording joins nothing. Unit: ms. */
  readonly overlapMs?: number;
  /** In the map's own places `speaks-after`, as it is now. Unit: ms; absent where it has steps. */
  readonly speaksAfterMs?: number;
  /** The key on which its notes go out, whatever is played; absent where they keep their own. */
  readonly key?: number;
  /** The range into which played velocities are laid; absent where they stay. */
  readonly velocities?: readonly [least: number, most: number];
}

/** What has to be known of a library to play it. */
export interface ProbedLibrary {
  readonly articulations: readonly ProbedArticulation[];
  readonly range: { readonly low: number; readonly high: number };
  /** The octave number that it prints for MIDI note 60. */
  readonly middleC: 3 | 4 | 5;
  /** Whether switch keys work only while they are held. */
  readonly isMomentary: boolean;
  /** Semitones that notes are sent over what is written; 0 where it is absent. */
  readonly transpose?: number;
  /** Unit: ms. */
  readonly tapMs: number;
  readonly switchVelocity: number;
  /** The controller that shapes loudness; absent where the map names none. */
  readonly controller?: number;
  /** The map's own `levels`. */
  readonly levels?: LevelTable;
}

/** Marks of sounds that go on while the key is held; playing words of the trade, no source. */
const sustained = new Set([
  'tenuto',
  'legato',
  'arco',
  'tremolo',
  'detached-legato',
  'harmonic',
  'trill-mark',
  'sul-ponticello',
  'sul-tasto',
  'con-sord',
]);

/** A probe is played at 120 quarters a minute, the tempo of a file that names none. Unit: ms. */
export const wholeNoteMs = 2000;

/** What measuring needs of a map. */
export function probedLibrary(map: ArticulationMap): ProbedLibrary {
  const { range, middleC, switching, dynamics, transpose } = map;
  return {
    articulations: [...map.articulations.values()].map(probedArticulation),
    range,
    middleC,
    isMomentary: switching.notes === 'momentary',
    tapMs: msOf(switching.tap),
    switchVelocity: switching.velocity,
    ...(transpose === 0 ? {} : { transpose }),
    ...(dynamics ? { controller: dynamics.controller, levels: dynamics.levels } : {}),
  };
}

function probedArticulation(articulation: Articulation): ProbedArticulation {
  const { name, switch: messages, loudness, joins, speaksAfter, means, key, velocity } = articulation;
  const [only, ...more] = speaksAfter;
  // The last step is for all notes that no other is for.
  const overlap = joins?.overlap.at(-1)?.is;
  return {
    name,
    switch: messages,
    loudness,
    sustains: loudness === 'controller' || joins !== undefined || means.some((mark) => sustained.has(mark)),
    ...(overlap ? { overlapMs: msOf(overlap) } : {}),
    ...(only && more.length === 0 ? { speaksAfterMs: msOf(only.is) } : {}),
    ...(key === undefined ? {} : { key }),
    ...(velocity ? { velocities: velocity.into } : {}),
  };
}

function msOf(duration: Duration): number {
  return duration.unit === 'ms' ? duration.ms : (wholeNoteMs * duration.numerator) / duration.denominator;
}
