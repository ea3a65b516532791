import type { Chord, Pair, TakenNote, WrittenNote } from './notes.js';
import { type Anchor, median, steadyAnchors } from './steady.js';

/** When a chord was played, as far as one knows. Unit: ms. */
export interface Expectation {
  readonly ms: number;
  /** Beside a stretch that was left out, or in it: what is expected here is worth little. */
  readonly isSkipped: boolean;
}

/** Of the notes this many chords to either side at least this share must have been played, or the place was left out. */
const reach = 8;
const leastPlayed = 0.35;

/**
 * When each chord of the score should have been played, by the notes that are paired: at the median of its own, and
 * between chords without any in proportion to the score. A stretch of which hardly a note was played (a repeat that
 * was not made) was left out, and the few are there by chance.
 */
export function expectations(
  written: readonly WrittenNote[],
  chords: readonly Chord[],
  pairs: readonly Pair[],
  taken: readonly TakenNote[],
): readonly Expectation[] {
  const played = new Map(pairs.map((pair) => [pair.written, taken[pair.taken]?.ms ?? 0]));
  const left = leftOut(chords, played);
  const all = rising(anchorsOf(chords, played).filter(({ chord }) => left[chord] === false));
  const anchors = steadyAnchors(all, ({ chord }) => rivalsOf(chord, written, chords, played));
  const pace = usualPace(anchors);
  let next = 0;
  return chords.map((chord, index): Expectation => {
    while ((anchors[next]?.chord ?? Number.POSITIVE_INFINITY) < index) next += 1;
    const after = anchors[next];
    const before = anchors[next - 1];
    const isSkipped = left[index] === true;
    if (after?.chord === index) return { ms: after.ms, isSkipped };
    if (!after || !before) return beyond(chord, after ?? before, pace);
    const share = (chord.time - before.time) / (after.time - before.time);
    return { ms: before.ms + share * (after.ms - before.ms), isSkipped };
  });
}

/** For each chord whether it lies where hardly anything was played. */
function leftOut(chords: readonly Chord[], played: ReadonlyMap<number, number>): readonly boolean[] {
  const sums = [{ written: 0, played: 0 }];
  for (const { notes } of chords) {
    const before = sums.at(-1) ?? { written: 0, played: 0 };
    const hits = notes.filter((index) => played.has(index)).length;
    sums.push({ written: before.written + notes.length, played: before.played + hits });
  }
  return chords.map((_, index) => {
    const from = sums[Math.max(0, index - reach)];
    const to = sums[Math.min(chords.length, index + reach + 1)];
    if (!from || !to) return false;
    return to.played - from.played < leastPlayed * (to.written - from.written);
  });
}

/** Chords to either side in which a note unplayed may be the one that was played. */
const alike = 4;

/**
 * The places of the chords close by that have a pitch of this one, if a note of that pitch was not found there: what was
 * taken for this chord may be one of them. None where there is no doubt.
 */
function rivalsOf(
  chord: number,
  written: readonly WrittenNote[],
  chords: readonly Chord[],
  played: ReadonlyMap<number, number>,
): readonly number[] {
  const pitches = new Set(chords[chord]?.notes.map((index) => written[index]?.pitch));
  const near = [
    ...chords.slice(Math.max(0, chord - alike), chord),
    ...chords.slice(chord + 1, chord + alike + 1),
  ];
  const shared = near.flatMap(({ time, notes }) =>
    notes.filter((index) => pitches.has(written[index]?.pitch)).map((index) => ({ time, index })),
  );
  return shared.some(({ index }) => !played.has(index)) ? shared.map(({ time }) => time) : [];
}

/** Before the first and behind the last chord that was found. */
function beyond(chord: Chord, nearest: Anchor | undefined, pace: number): Expectation {
  if (!nearest) return { ms: 0, isSkipped: true };
  return { ms: nearest.ms + (chord.time - nearest.time) * pace, isSkipped: false };
}

function anchorsOf(chords: readonly Chord[], played: ReadonlyMap<number, number>): readonly Anchor[] {
  return chords.flatMap(({ time, notes }, chord) => {
    const onsets = notes.flatMap((index) => played.get(index) ?? []);
    return onsets.length > 0 ? [{ chord, time, ms: median(onsets), size: onsets.length }] : [];
  });
}

/**
 * Anchors of which none is earlier than one before it, as far as they can be told apart: one that two of its neighbours
 * speak against, or one that more notes stand for, is taken out.
 */
function rising(anchors: readonly Anchor[]): readonly Anchor[] {
  return anchors.filter(({ ms, size }, index) => {
    const before = anchors.slice(Math.max(0, index - 3), index).filter((one) => one.ms > ms);
    const behind = anchors.slice(index + 1, index + 4).filter((one) => one.ms < ms);
    const isOutweighed = [...before, ...behind].some((one) => one.size > size);
    return before.length < 2 && behind.length < 2 && !isOutweighed;
  });
}

/** Median of ms for a unit of the score. */
function usualPace(anchors: readonly Anchor[]): number {
  const paces = anchors.flatMap(({ time, ms }, index) => {
    const before = anchors[index - 1];
    return before && time > before.time ? [(ms - before.ms) / (time - before.time)] : [];
  });
  return paces.length > 0 ? median(paces) : 1;
}
