import { type Clock, finder, groupOnsets } from '../../midi/index.js';
import { heardTogether } from './broken.js';
import { type Grid, halved, isBeat, unitTicks } from './grid.js';
import { ornaments } from './ornament.js';
import { risingSet } from './rising-set.js';
import type { SoundingNote } from './types.js';

/** When a pitch sounds, as it is meant: no longer as it happened to be played. */
export interface SettledNote {
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  /** Whether it passes between tones of the harmony, or turns around one. */
  readonly passing: boolean;
}

export interface Settled {
  /** In order of tick. */
  readonly notes: readonly SettledNote[];
  /** Ticks at which a harmony may begin or end, rising; the first and last enclose all notes. */
  readonly lines: readonly number[];
}

/** How far a player strays from a line that is meant, in ms (common practice, no source); a rolled chord comes late. */
const early = 50;
const late = 80;
/** Never further than this share of a cell, so that triplets do not fall on halves of a beat. */
const shareOfCell = 0.3;
/** A release this long behind a new onset is a finger that was slow to leave, not a note that is held over. */
const drag = 80;
/** Notes this close were struck together; so many of them make a chord, wherever it stands. */
const chordWindow = { unit: 'ms', ms: 50 } as const;
const chordNotes = 3;

/**
 * Puts onsets and releases on the lines that they are meant for, so that looseness, rolled chords and dragging
 * releases do not count as harmony; other notes on halves of a cell, so that it shows where they follow each other.
 * Chords struck away from all lines have a line of their own.
 */
export function settle(notes: readonly SoundingNote[], clock: Clock, grid: Grid): Settled {
  const near = nearestLine(clock, grid);
  const finer = nearestLine(clock, halved(grid));
  const place = (tick: number) => near(tick) ?? finer(tick) ?? tick;
  const onsets = notes.map(({ tick }) => near(tick));
  settleLooseChords(notes, onsets, clock);
  const begun = risingSet(onsets.filter((tick) => tick !== null));
  const endOf = settledEnds(begun, clock, place);
  const timed = notes.map(({ tick, endTick, pitch, part }, index) => {
    const from = onsets[index] ?? place(tick);
    return { tick: from, endTick: endOf(from, endTick), pitch, part, passing: false };
  });
  // The same objects once more: of a long file they take as much room as all that is found in it.
  ornaments(timed, unitTicks(clock), isBeat(clock)).forEach((passing, index) => {
    const note = timed[index];
    if (note) note.passing = passing;
  });
  const settled: SettledNote[] = heardTogether(timed, clock);
  settled.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
  const ends = settled.flatMap(({ endTick }) => (near(endTick) === endTick ? [endTick] : []));
  return { notes: settled, lines: risingSet([...begun, ...ends, ...edgesOfSound(settled)]) };
}

/** The line near a tick that a player may have meant; null where there is none. */
function nearestLine(clock: Clock, grid: Grid): (tick: number) => number | null {
  return (tick) => {
    const { from, to } = grid(tick);
    if (tick === from) return from;
    const [start, at, end] = [clock.ms(from), clock.ms(tick), clock.ms(to)];
    const most = (end - start) * shareOfCell;
    if (at - start <= Math.min(late, most)) return from;
    return end - at <= Math.min(early, most) ? to : null;
  };
}

function settleLooseChords(notes: readonly SoundingNote[], onsets: (number | null)[], clock: Clock): void {
  const loose = notes.flatMap(({ tick }, index) => (onsets[index] === null ? [{ tick, index }] : []));
  for (const group of groupOnsets(loose, clock, chordWindow)) {
    const [first] = group;
    if (first && group.length >= chordNotes) for (const { index } of group) onsets[index] = first.tick;
  }
}

function settledEnds(begun: readonly number[], clock: Clock, place: (tick: number) => number) {
  const onsetAt = finder(begun);
  return (from: number, end: number): number => {
    const onset = begun[onsetAt(end)] ?? from;
    if (onset > from && clock.ms(end) - clock.ms(onset) <= drag) return onset;
    const placed = place(end);
    return placed > from ? placed : Math.max(end, from);
  };
}

/** Where sound begins after silence, and where it ends. */
function edgesOfSound(notes: readonly SettledNote[]): readonly number[] {
  const edges: number[] = [];
  let reach = Number.NEGATIVE_INFINITY;
  for (const { tick, endTick } of notes) {
    if (tick > reach) {
      if (edges.length > 0) edges.push(reach);
      edges.push(tick);
    }
    reach = Math.max(reach, endTick);
  }
  return edges.length > 0 ? [...edges, reach] : [];
}
