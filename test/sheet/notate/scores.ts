import type { Clock } from '../../../src/midi/clock/clock.js';
import { clockOf } from '../../../src/midi/clock/index.js';
import { notate } from '../../../src/sheet/notate/index.js';
import type {
  Notation,
  NoteToNotate,
  ScoreToNotate,
  StaffToNotate,
} from '../../../src/sheet/notate/types.js';
import { songOf, type Timed, tempoAt, trackOf } from '../../support/song.js';

/** Ticks of a quarter in these tests; at 120 quarters a minute a tick is 1.0417 ms. */
export const PPQ = 480;

/** A time signature from a place on, in quarters. */
export type Signature = readonly [quarters: number, count: number, unit: number];

export function clockWith(signatures: readonly Signature[] = [], bpm = 120, ppq = PPQ): Clock {
  const events = signatures.map(([quarters, numerator, denominator]): Timed => {
    const event = {
      type: 'timeSignature' as const,
      meta: true,
      numerator,
      denominator,
      metronome: 24,
      thirtyseconds: 8,
    };
    return { tick: Math.round(quarters * ppq), event };
  });
  return clockOf(songOf([trackOf([], [tempoAt(0, bpm), ...events])], { ppq }), 1);
}

/** A played note: onset and length in quarters, MIDI pitch. */
export type Played = readonly [onset: number, length: number, pitch: number];

export function notesOf(played: readonly Played[], name = 'n', ppq = PPQ): readonly NoteToNotate[] {
  return played
    .map(([onset, length, pitch], index) => ({
      id: `${name}${index}`,
      tick: Math.round(onset * ppq),
      endTick: Math.round((onset + length) * ppq),
      pitch,
    }))
    .sort((a, b) => a.tick - b.tick);
}

/** Notes one after another, each held for a part of the way to the next. */
export function lineOf(
  values: readonly number[],
  pitches: readonly number[],
  held = 0.9,
  start = 0,
): readonly Played[] {
  let at = start;
  return values.map((value, index): Played => {
    const onset = at;
    at += value;
    return [onset, value * held, pitches[index % pitches.length] ?? 60];
  });
}

export function staffOf(played: readonly Played[], more: Partial<StaffToNotate> = {}): StaffToNotate {
  return { label: 'Part', notes: notesOf(played), words: [], ...more };
}

/** A score up to its last release. */
export function scoreOf(staves: readonly StaffToNotate[], more: Partial<ScoreToNotate> = {}): ScoreToNotate {
  let endTick = 1;
  for (const { notes } of staves) for (const note of notes) endTick = Math.max(endTick, note.endTick);
  return { clock: clockWith(), staves, keys: [], chords: [], endTick, ...more };
}

/** One staff, written. */
export function notateLine(played: readonly Played[], more: Partial<ScoreToNotate> = {}): Notation {
  return notate(scoreOf([staffOf(played)], more));
}
