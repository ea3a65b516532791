import type { SoundingNote } from '../harmony/index.js';
import type { Crossing, VoicedPitch } from './types.js';

/** Parts whose usual pitches lie nearer than this have no order: first and second violins, say. Unit: semitones. Own choice. */
const apart = 3;

/** The pitch at which each part usually lies: the mean of its notes by their lengths. */
export function defaultPitches(notes: readonly SoundingNote[]): ReadonlyMap<number, number> {
  const sums = new Map<number, { ticks: number; pitch: number }>();
  for (const { part, pitch, tick, endTick } of notes) {
    const sum = sums.get(part) ?? { ticks: 0, pitch: 0 };
    sum.ticks += endTick - tick;
    sum.pitch += pitch * (endTick - tick);
    sums.set(part, sum);
  }
  return new Map([...sums].map(([part, { ticks, pitch }]) => [part, ticks > 0 ? pitch / ticks : pitch]));
}

/** Where a part lies in a chord. */
interface Lie {
  readonly part: number;
  readonly usual: number;
  readonly low: number;
  high: number;
}

/**
 * Parts all of whose notes lie above all notes of a part that usually lies higher. Of several such parts below one, the
 * one that usually lies highest is named.
 */
export function crossingsOf(
  pitches: readonly VoicedPitch[],
  usual: ReadonlyMap<number, number>,
): readonly Crossing[] {
  const byBottom = liesOf(pitches, usual);
  const byTop = [...byBottom].sort((a, b) => a.high - b.high);
  let below = 0;
  let over: Lie | undefined;
  return byBottom.flatMap(({ part, usual: own, low }): Crossing[] => {
    for (let next = byTop[below]; next && next.high < low; next = byTop[++below])
      if (!over || next.usual > over.usual) over = next;
    if (!over || over.usual - own < apart) return [];
    return [{ part, pitch: low, over: over.part, overPitch: over.high }];
  });
}

/** Rising by their lowest pitches. */
function liesOf(pitches: readonly VoicedPitch[], usual: ReadonlyMap<number, number>): readonly Lie[] {
  const lies = new Map<number, Lie>();
  for (const { pitch, parts } of pitches)
    for (const part of parts) {
      const known = lies.get(part);
      if (known) known.high = pitch;
      else lies.set(part, { part, usual: usual.get(part) ?? pitch, low: pitch, high: pitch });
    }
  return [...lies.values()];
}
