import { clockOf } from '../../../src/midi/clock/index.js';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import type { Harmony, SoundingNote } from '../../../src/music/harmony/types.js';
import { songOf, type Timed, tempoAt, trackOf } from '../../support/song.js';
import type { AnalysedChord } from './analysis.js';
import type { Score } from './kern.js';
import type { ReadChord, ReadKey } from './roman.js';

/** A chord in a key over a stretch of music, in quarter notes. */
export interface Reading {
  readonly from: number;
  readonly to: number;
  readonly chord: ReadChord | null;
  readonly key: ReadKey;
}

/** Quarter notes through which two readings of a piece agree. */
export interface Agreement {
  /** Through which the first reading has a chord. */
  readonly chords: number;
  readonly roots: number;
  /** Root, third and fifth. */
  readonly triads: number;
  readonly keys: number;
  /** The tonic of a key, or its relative: the same signature. */
  readonly signatures: number;
  /** Sevenths in the first, in the second, and on the same root in both. */
  readonly sevenths: number;
  readonly otherSevenths: number;
  readonly bothSevenths: number;
}

const ppq = 480;
/** Readings are compared at so many places of a quarter note. */
const places = 8;

/** An analysis laid over a score. Bar 0, or the last before the first that is counted, ends where the next begins. */
export function readingsOf(analysis: readonly AnalysedChord[], score: Score): readonly Reading[] {
  const end = Math.max(0, ...score.notes.map(({ to }) => to));
  const starts = analysis.map(({ bar, offset }) => {
    const start = score.bars.get(bar) ?? startBefore(score, bar);
    return start === null ? null : start + offset;
  });
  const placed = analysis.flatMap(({ chord, key }, index) => {
    const from = starts[index];
    return from === null || from === undefined ? [] : [{ from, chord, key }];
  });
  placed.sort((a, b) => a.from - b.from);
  return placed.map((read, index) => ({ ...read, to: placed[index + 1]?.from ?? end }));
}

function startBefore({ bars, beatsPerBar, beatUnit }: Score, bar: number): number | null {
  const next = bars.get(bar + 1);
  return next === undefined ? null : next - (beatsPerBar * 4) / beatUnit;
}

/** How keyslip reads a score. */
export function readByUs(score: Score, per: 'found' | 'beat' = 'found'): readonly Reading[] {
  const { beatsPerBar, beatUnit, bars } = score;
  const barLength = (beatsPerBar * 4) / beatUnit;
  const first = Math.min(...[...bars.values()].filter((start) => start > 0), barLength);
  const shift = bars.get(1) === 0 ? 0 : (barLength - (first % barLength)) % barLength;
  const notes = score.notes.map(
    ({ from, to, pitch, voice }): SoundingNote => ({
      tick: Math.round((from + shift) * ppq),
      endTick: Math.round((to + shift) * ppq),
      pitch,
      velocity: 80,
      part: voice,
    }),
  );
  const signature = { type: 'timeSignature', numerator: beatsPerBar, denominator: beatUnit };
  const event = { ...signature, meta: true, metronome: 24, thirtyseconds: 8 } as Timed['event'];
  const clock = clockOf(
    songOf([trackOf([{ tick: 0, end: 1, pitch: 60 }], [{ tick: 0, event }, tempoAt(0, 100)])]),
    1,
  );
  return harmonyOf(notes, clock, { per }).map(({ tick, endTick, chord, key }) => ({
    from: tick / ppq - shift,
    to: endTick / ppq - shift,
    chord: chord && chordOfOurs(chord),
    key,
  }));
}

/** A third that is suspended or missing is taken for major; a seventh that is diminished is one too. */
function chordOfOurs({ root, intervals }: NonNullable<Harmony['chord']>): ReadChord {
  const has = (interval: number) => intervals.includes(interval);
  const third = has(3) && !has(4) ? 3 : 4;
  const fifth = has(7) ? 7 : has(6) && third === 3 ? 6 : has(8) ? 8 : 7;
  return { root, third, fifth, seventh: has(10) || has(11) || (has(9) && fifth === 6) };
}

/** Compares two readings of a piece through all of the time in which both have a key. */
export function agreementOf(first: readonly Reading[], second: readonly Reading[]): Agreement {
  const sums = {
    chords: 0,
    roots: 0,
    triads: 0,
    keys: 0,
    signatures: 0,
    sevenths: 0,
    otherSevenths: 0,
    bothSevenths: 0,
  };
  let at = 0;
  for (const { read, time } of moments(first)) {
    while (at < second.length - 1 && (second[at]?.to ?? 0) <= time) at++;
    const other = second[at];
    if (!other || other.from > time || other.to <= time || !read.chord) continue;
    const same = compared(read, other);
    for (const name of Object.keys(sums) as (keyof Agreement)[]) sums[name] += same[name] ? 1 / places : 0;
  }
  return sums;
}

function moments(readings: readonly Reading[]): readonly { readonly read: Reading; readonly time: number }[] {
  return readings.flatMap((read) => {
    const first = Math.ceil(read.from * places);
    const count = Math.max(0, Math.ceil(read.to * places) - first);
    return Array.from({ length: count }, (_, index) => ({ read, time: (first + index + 0.5) / places }));
  });
}

function compared({ chord, key }: Reading, other: Reading): Readonly<Record<keyof Agreement, boolean>> {
  const root = chord !== null && chord.root === other.chord?.root;
  const [sevenths, otherSevenths] = [chord?.seventh === true, other.chord?.seventh === true];
  return {
    chords: true,
    roots: root,
    triads: root && chord.third === other.chord?.third && chord.fifth === other.chord.fifth,
    keys: key.tonic === other.key.tonic && key.mode === other.key.mode,
    signatures: relativeMajor(key) === relativeMajor(other.key),
    sevenths,
    otherSevenths,
    bothSevenths: root && sevenths && otherSevenths,
  };
}

function relativeMajor({ tonic, mode }: ReadKey): number {
  return mode === 'major' ? tonic : (tonic + 3) % 12;
}

/** Sums of agreements. */
export function summed(all: readonly Agreement[]): Agreement {
  const [first, ...rest] = all;
  if (!first) throw new Error('nothing to sum');
  return rest.reduce<Agreement>(
    (sum, one) => ({
      chords: sum.chords + one.chords,
      roots: sum.roots + one.roots,
      triads: sum.triads + one.triads,
      keys: sum.keys + one.keys,
      signatures: sum.signatures + one.signatures,
      sevenths: sum.sevenths + one.sevenths,
      otherSevenths: sum.otherSevenths + one.otherSevenths,
      bothSevenths: sum.bothSevenths + one.bothSevenths,
    }),
    first,
  );
}
