// What a probe plays and when, as plain data; and how it becomes a MIDI file and a sound with clicks.
import { murmur3 } from '../keyslip.js';
import type { ProbedLibrary } from '../library.js';
import { shuffled } from './shuffle.js';
import type { ProbeOptions, ProbePlan, ProbeSlot } from './types.js';
import { asked, type Wanted } from './wanted.js';

export type { ProbeNote, ProbeOptions, ProbePlan, ProbeSlot, SlotKind } from './types.js';

/** When the first slot begins: clicks, then silence to measure the noise in. Unit: seconds. */
const lead = 5;
const firstClick = 0.5;
const silence = { from: 3.5, to: 4.9 } as const;
/** From a slot's beginning to its note: time for the switches. Unit: seconds. */
export const settle = 0.5;

/**
 * The plan of a probe: every articulation at four pitches and four values, joined pairs, the pan controller, a fine scale
 * of the dynamics controller, and every key once; with `quick` at two pitches and two values, and no keys one by one.
 */
export function probePlan(library: ProbedLibrary, options: ProbeOptions = {}): ProbePlan {
  const wanted = asked(library, options);
  const slots: ProbeSlot[] = [];
  let at = lead;
  for (const one of shuffled(wanted.slots, 1)) {
    slots.push(slotAt(one, at));
    at += one.length;
  }
  const gaps = clickGaps(library, options);
  const end = at + 0.5;
  return {
    options: { quick: options.quick === true, room: options.room === true },
    slots,
    clicks: { start: clicksFrom(firstClick, gaps.start), end: clicksFrom(end, gaps.end) },
    silence,
    seconds: end + 2.5,
    common: wanted.common,
  };
}

/** All plans that a map can be bounced with; the clicks tell which one it was. */
export function possiblePlans(library: ProbedLibrary): readonly ProbePlan[] {
  const either = [false, true];
  return either.flatMap((quick) => either.map((room) => probePlan(library, { quick, room })));
}

function slotAt({ notes, ...rest }: Wanted, at: number): ProbeSlot {
  return { ...rest, at, notes: notes.map((note) => ({ ...note, at: at + settle + note.at })) };
}

/**
 * How far apart the clicks stand. It depends on everything that a bounce has to agree with, so that a bounce of another
 * map, or of this one before an articulation was added, is not taken for one of this.
 */
function clickGaps(library: ProbedLibrary, { quick, room }: ProbeOptions) {
  const { articulations, range, controller, isMomentary, transpose = 0 } = library;
  const played = articulations.map(
    ({ name, switch: messages, loudness, sustains, overlapMs, key, velocities }) => [
      name,
      messages,
      loudness,
      sustains,
      overlapMs !== undefined,
      key,
      velocities,
    ],
  );
  const text = JSON.stringify([
    quick === true,
    room === true,
    range,
    controller,
    isMomentary,
    transpose,
    played,
  ]);
  const hash = murmur3(new TextEncoder().encode(text), 0);
  const gap = (shift: number) => 0.4 + 0.02 * ((hash >>> shift) & 15);
  return { start: [gap(0), gap(4)], end: [gap(8), gap(12)] };
}

function clicksFrom(first: number, gaps: readonly number[]): readonly number[] {
  const times = [first];
  for (const gap of gaps) times.push((times.at(-1) ?? first) + gap);
  return times;
}
