import type { SoundingNote } from '../harmony/index.js';
import { type Sounding, sweep } from '../voicing/index.js';
import type { Role } from './types.js';

/**
 * How near beneath a line another one has to lie so as to cover it: less than an octave, at which it doubles the line.
 * Own choice. Unit: semitones.
 */
const near = 11;

/** Longer than its sounding time by this, a part's notes are chords. Own choice: joined notes overlap by less. */
const chordal = 1.25;

/** What is heard of parts that sound together. */
export interface Hearing {
  /** The role of each part by its number. */
  readonly roles: ReadonlyMap<number, Role>;
  /**
   * For each note, the part that is struck as hard or harder and sounds close beneath it for most of its length, while
   * it is on top; −1 where none does.
   */
  readonly under: ArrayLike<number>;
}

/** Ticks of a part. */
interface Times {
  /** Of its notes added up. */
  notes: number;
  /** In which it sounds. */
  sounding: number;
  /** In which others sound with it. */
  together: number;
  /** Of these, in which it is the highest, the lowest. */
  highest: number;
  lowest: number;
}

/**
 * Who has the melody and who the bass: a part that is the highest of what sounds for more than half of the time in
 * which it sounds together with others, or the lowest. A line that is alone throughout is a melody; chords that are
 * both highest and lowest, or alone, are harmony.
 */
export function hear(notes: readonly SoundingNote[]): Hearing {
  const times = new Map<number, Times>();
  for (const { part, tick, endTick } of notes) {
    const known = times.get(part);
    if (known) known.notes += endTick - tick;
    else times.set(part, { notes: endTick - tick, sounding: 0, together: 0, highest: 0, lowest: 0 });
  }
  const under = new Int32Array(notes.length).fill(-1);
  const covered = new Float64Array(notes.length);
  sweep(notes, [], (tick, endTick, sounding) => {
    const length = endTick - tick;
    addTimes(times, sounding, length);
    const top = sounding.highestUpTo(127);
    for (const { note } of sounding.partsAt(top).values()) {
      const other = closeBeneath(sounding, notes, note);
      if (other < 0) continue;
      covered[note] = (covered[note] ?? 0) + length;
      under[note] = other;
    }
  });
  notes.forEach(({ tick, endTick }, index) => {
    if ((covered[index] ?? 0) * 2 <= endTick - tick) under[index] = -1;
  });
  return { roles: new Map([...times].map(([part, of]) => [part, roleOf(of)])), under };
}

function addTimes(times: ReadonlyMap<number, Times>, sounding: Sounding, length: number): void {
  const parts = sounding.parts();
  for (const part of parts.keys()) {
    const of = times.get(part);
    if (!of) continue;
    of.sounding += length;
    if (parts.size > 1) of.together += length;
  }
  if (parts.size < 2) return;
  for (const part of sounding.partsAt(sounding.highestUpTo(127)).keys()) {
    const of = times.get(part);
    if (of) of.highest += length;
  }
  for (const part of sounding.partsAt(sounding.lowest()).keys()) {
    const of = times.get(part);
    if (of) of.lowest += length;
  }
}

/** The nearest part beneath a note that is struck as hard or harder; −1 where there is none. */
function closeBeneath(sounding: Sounding, notes: readonly SoundingNote[], note: number): number {
  const { pitch, part, velocity } = notes[note] ?? { pitch: 0, part: -1, velocity: 128 };
  for (let at = sounding.highestUpTo(pitch - 1); at >= pitch - near && at >= 0; ) {
    for (const [other, held] of sounding.partsAt(at))
      if (other !== part && (notes[held.note]?.velocity ?? 0) >= velocity) return other;
    at = sounding.highestUpTo(at - 1);
  }
  return -1;
}

function roleOf({ notes, sounding, together, highest, lowest }: Times): Role {
  const chords = notes > chordal * sounding;
  const [top, bottom] = [highest * 2 > together, lowest * 2 > together];
  if (together === 0 || (top && bottom)) return chords ? 'harmony' : 'melody';
  return top ? 'melody' : bottom ? 'bass' : 'harmony';
}
