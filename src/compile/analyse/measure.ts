import {
  type Clock,
  endless,
  type MeasuredNote,
  msBetween,
  nothing,
  type Onset,
  type PairedNote,
  type Span,
  spanBetween,
} from '../../midi/index.js';
import { type Controls, isPedalDown, noControls } from './controls.js';
import { shareIntervals, shareOf } from './share.js';

/** A release this much before the next onset still counts as overlapping it. Unit: ms. */
export const overlapTolerance = 10;

/**
 * Measures every note of every onset.
 *
 * @param groups notes struck together, in order
 * @param marks the marks that each group carries
 * @param controls of the part's channel
 * @param isLengthened whether the pedal lengthens notes
 */
export function measure(
  groups: readonly (readonly PairedNote[])[],
  marks: readonly ReadonlySet<string>[],
  clock: Clock,
  controls: Controls = noControls,
  isLengthened = false,
): readonly Onset[] {
  const soundingEnd = ({ offIndex, endTick }: PairedNote) =>
    isLengthened ? controls.heldTo(offIndex, endTick) : endTick;
  const tops = groups.map(topOf);
  const onsets: Onset[] = [];
  let silentFrom = 0;
  // The silence after an onset is the silence before the next.
  let restBefore = endless;
  groups.forEach((group, index) => {
    const first = group[0];
    if (!first) return;
    const tick = first.tick;
    const nextTick = groups[index + 1]?.[0]?.tick;
    silentFrom = group.reduce((latest, note) => Math.max(latest, soundingEnd(note)), silentFrom);
    const restAfter = nextTick === undefined ? endless : silence(clock, silentFrom, nextTick);
    const around: Around = {
      clock,
      index,
      nextTick,
      pace: nextTick === undefined ? undefined : spanBetween(clock, tick, nextTick),
      restBefore,
      restAfter,
      previousTop: tops[index - 1],
      nextTop: tops[index + 1],
      overlapsPrevious: overlaps(clock, tops[index - 1], tick, soundingEnd),
      controls,
      soundingEnd,
      chord: group.length,
      marks: marks[index] ?? noMarks,
    };
    const notes = group.map((note) => measureNote(note, around));
    const top = notes.reduce((highest, note) => (note.pitch > highest.pitch ? note : highest));
    const lastTick = group.at(-1)?.tick ?? tick;
    onsets.push({ index, tick, lastTick, pace: around.pace ?? top.held, notes, top });
    restBefore = restAfter;
  });
  return withShares(onsets);
}

/** The same onsets with the share of its interval for which each note is held. */
function withShares(onsets: readonly Onset[]): readonly Onset[] {
  const intervals = shareIntervals(onsets);
  return onsets.map((onset, index) => {
    const interval = intervals[index];
    const notes = onset.notes.map((note) => ({ ...note, heldShare: shareOf(note, interval) }));
    return { ...onset, notes, top: notes[onset.notes.indexOf(onset.top)] ?? onset.top };
  });
}

const noMarks: ReadonlySet<string> = new Set();

interface Around {
  readonly clock: Clock;
  readonly index: number;
  readonly nextTick: number | undefined;
  readonly pace: Span | undefined;
  readonly restBefore: Span;
  readonly restAfter: Span;
  readonly previousTop: PairedNote | undefined;
  readonly nextTop: PairedNote | undefined;
  readonly controls: Controls;
  /** Where a note ends, the pedal counted in. */
  readonly soundingEnd: (note: PairedNote) => number;
  readonly overlapsPrevious: boolean;
  readonly chord: number;
  readonly marks: ReadonlySet<string>;
}

function measureNote(note: PairedNote, around: Around): MeasuredNote {
  const { onIndex, offIndex, tick, endTick, pitch, velocity } = note;
  const held = spanBetween(around.clock, tick, around.soundingEnd(note));
  const controllers = around.controls.at(onIndex);
  const previous = around.previousTop;
  return {
    onIndex,
    offIndex,
    tick,
    endTick,
    pitch,
    velocity,
    onset: around.index,
    held,
    pace: around.pace ?? held,
    heldShare: 1,
    restBefore: around.restBefore,
    restAfter: around.restAfter,
    overlapsNext: overlaps(around.clock, note, around.nextTick, around.soundingEnd),
    overlapsPrevious: around.overlapsPrevious,
    leap: previous ? Math.abs(pitch - previous.pitch) : null,
    repeatsPrevious: previous?.pitch === pitch,
    repeatsNext: around.nextTop?.pitch === pitch,
    chord: around.chord,
    controllers,
    pedalDown: isPedalDown(controllers),
    marks: around.marks,
  };
}

function topOf(group: readonly PairedNote[]): PairedNote | undefined {
  return group.reduce<PairedNote | undefined>(
    (top, note) => (top && top.pitch >= note.pitch ? top : note),
    undefined,
  );
}

function silence(clock: Clock, from: number, to: number): Span {
  return from >= to ? nothing : spanBetween(clock, from, to);
}

function overlaps(
  clock: Clock,
  note: PairedNote | undefined,
  nextTick: number | undefined,
  soundingEnd: Around['soundingEnd'],
): boolean {
  if (!note || nextTick === undefined) return false;
  const end = soundingEnd(note);
  return end >= nextTick || msBetween(clock, end, nextTick) <= overlapTolerance;
}
