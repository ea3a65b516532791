import { largest } from '../../largest.js';
import type { Sounding } from '../notes.js';

/** Seconds between notes of a rolled chord, and the share of its length that it is rolled over at most (common practice, no source). */
const usual = 0.045;
const mostShare = 1 / 3;

/** By how many ticks each note of a rolled chord comes later than written: from the beat on, one after the other. */
export function rolled(
  notes: readonly Sounding[],
  ticksPerSecondAt: (tick: number) => number,
): ReadonlyMap<Sounding, number> {
  const chords = new Map<string, Sounding[]>();
  for (const one of notes) {
    if (!one.note.roll) continue;
    const key = `${one.tick} ${one.note.roll.name}`;
    const chord = chords.get(key);
    if (chord) chord.push(one);
    else chords.set(key, [one]);
  }
  const shifts = new Map<Sounding, number>();
  for (const chord of chords.values()) {
    const first = chord[0];
    if (!first || chord.length < 2) continue;
    const sign = chord.some(({ note }) => note.roll?.direction === 'down') ? -1 : 1;
    const shortest = -largest(
      chord.map(({ tick, endTick }) => tick - endTick),
      Number.NEGATIVE_INFINITY,
    );
    const step = Math.min(usual * ticksPerSecondAt(first.tick), (mostShare * shortest) / (chord.length - 1));
    chord
      .sort((a, b) => sign * (a.note.pitch - b.note.pitch))
      .forEach((one, index) => {
        shifts.set(one, Math.round(index * step));
      });
  }
  return shifts;
}
