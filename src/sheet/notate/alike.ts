import { QUARTER } from './measures.js';
import { type Grid, stepAt } from './release.js';
import type { VoiceEvent } from './voices.js';

/** Notes are held equally long if their lengths differ by no more than this share. Own figure, no source. */
const EQUAL = 0.15;

/** What the written lengths of notes that were played alike differ by at most: rounding to different beats. */
const ROUNDING = QUARTER;

/** Every end may lie on these: a part of a quarter. */
const FINE = QUARTER / 8;

/**
 * Writes notes that follow each other evenly, and were held equally long, alike: each as the one before it, wherever
 * its release has another beat's grid to be rounded to.
 *
 * @param voice events of which one ends before the next begins
 */
export function writtenAlike(voice: readonly VoiceEvent[], grid: Grid): readonly VoiceEvent[] {
  const written: VoiceEvent[] = [];
  voice.forEach((event, index) => {
    const before = written.at(-1);
    const next = voice[index + 1];
    const end =
      before && isRepeated(before, event, next, written.at(-2))
        ? event.start + before.end - before.start
        : event.end;
    written.push(end !== event.end && mayEnd(event, end, grid) ? { ...event, end } : event);
  });
  return written;
}

/** The last note of a voice has no step of its own: two equal ones before it count. */
function isRepeated(
  before: VoiceEvent,
  event: VoiceEvent,
  next: VoiceEvent | undefined,
  earlier: VoiceEvent | undefined,
): boolean {
  const step = event.start - before.start;
  const other = next ? next.start - event.start : before.start - (earlier?.start ?? Number.NEGATIVE_INFINITY);
  if (other !== step) return false;
  const [ticks, ticksBefore] = [heldTicks(event), heldTicks(before)];
  return Math.abs(ticks - ticksBefore) <= EQUAL * Math.max(ticks, ticksBefore);
}

function heldTicks({ notes }: VoiceEvent): number {
  return notes.reduce((most, { tick, endTick }) => Math.max(most, endTick - tick), 0);
}

function mayEnd(event: VoiceEvent, end: number, grid: Grid): boolean {
  if (Math.abs(end - event.end) > ROUNDING) return false;
  const { from, step } = stepAt(end, grid, 2);
  return (end - from) % FINE === 0 || (end - from) % step === 0;
}
