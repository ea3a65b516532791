import { analyse, compileParts, type Job, type MeasuredLine } from '../compile/index.js';
import type { Curve } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import {
  clockOf,
  noteEnd,
  noteTick,
  onOf,
  type Part,
  type Song,
  type Track,
  tickBefore,
} from '../midi/index.js';
import { startToSpeakAt } from '../timing/index.js';
import type { Moved } from './layer.js';
import { loudnessOf } from './loudness.js';
import type { CuePart } from './types.js';

/** The notes of a part on one channel, as layers and dynamics need them. */
export interface Played {
  readonly part: Part;
  readonly track: Track;
  readonly line: MeasuredLine;
  readonly moved: Moved;
  /** Where its loudness is made from the line or its marks. */
  readonly curve?: Curve;
  /** By this tick the first switch is there. */
  readonly earliest: number;
}

/** Looks at a part as it is played, and as it stands once it was pulled, rolled and loosened. */
export function played(
  song: Song,
  track: Track,
  part: Part,
  { timing, dynamics }: CuePart,
  map: ArticulationMap,
): Played {
  const { line } = analyse(song, part, map);
  const moved = movedNotes(song, { part, map, ...(timing ? { timing } : {}) });
  const curve = loudnessOf(song, line, dynamics, (name) => map.articulations.has(name));
  const first = line.notes.reduce(
    (least, note) => Math.min(least, moved(note).tick),
    Number.POSITIVE_INFINITY,
  );
  const earliest = earliestSwitch(song, part, map, first, timing?.compensate === true);
  return { part, track, line, moved, earliest, ...(curve ? { curve } : {}) };
}

function movedNotes(song: Song, { part, map, timing }: Job): Moved {
  const isMoved = timing && (timing.pull !== undefined || timing.roll || timing.loosenMs !== undefined);
  if (!isMoved) return (note) => note;
  const plain = { ...timing, compensate: false, joins: false };
  const { parts } = compileParts(song, [{ part, map, timing: plain }]);
  const now = new Map<number, ReturnType<Moved>>();
  for (const { decided, retimed } of parts)
    for (let row = 0; row < decided.length; row++)
      now.set(onOf(decided, row), {
        tick: noteTick(retimed.decided, row),
        endTick: noteEnd(retimed.decided, row),
      });
  return (note) => now.get(note.onIndex) ?? note;
}

/** The tick of the first switch, or one before it: whatever the first note gets, and however early it starts. */
export function earliestSwitch(
  song: Song,
  part: Part,
  map: ArticulationMap,
  first: number,
  isCompensated: boolean,
): number {
  if (!Number.isFinite(first)) return 0;
  const clock = clockOf(song, part.track);
  const times = isCompensated ? [...map.articulations.values()].flatMap((one) => one.speaksAfter) : [];
  const start = times.reduce(
    (least, { is }) => Math.min(least, startToSpeakAt(first, is, clock).tick),
    first,
  );
  return tickBefore(clock, Math.max(0, start), map.switching.lead);
}
