import type { Clock } from '../../../src/midi/clock/clock.js';
import { clockOf } from '../../../src/midi/clock/index.js';
import type { SoundingNote } from '../../../src/music/harmony/types.js';
import { songOf, type Timed, tempoAt, trackOf } from '../../support/song.js';
import type { Chorale } from './chorales.js';

export const beat = 480;

/** A clock of quarter-note beats at 480 ticks. */
export function clockFor(beatsPerBar = 4, bpm = 100): Clock {
  const signature: Timed = {
    tick: 0,
    event: {
      type: 'timeSignature',
      meta: true,
      numerator: beatsPerBar,
      denominator: 4,
      metronome: 24,
      thirtyseconds: 8,
    } as Timed['event'],
  };
  return clockOf(songOf([trackOf([{ tick: 0, end: 1, pitch: 60 }], [signature, tempoAt(0, bpm)])]), 1);
}

const letters = new Map([...'C-D-EF-G-A-B'].map((letter, index) => [letter, index]));
const lengths = new Map([
  ['', 1],
  ['h', 2],
  ['e', 0.5],
  ['s', 0.25],
  ['w', 4],
]);

/** A pitch as "Eb3", "F#4"; C4 is 60. */
export function pitchOf(name: string): number {
  const [, letter = '', sign = '', octave = ''] = /^([A-G])([#b]?)(-?\d)$/u.exec(name) ?? [];
  const pitch = letters.get(letter);
  if (pitch === undefined) throw new Error(`no pitch: ${name}`);
  return pitch + (sign === '#' ? 1 : sign === 'b' ? -1 : 0) + 12 * (Number(octave) + 1);
}

/** Notes of a voice, in the notation of the chorales. */
export function voice(text: string, part: number, from = 0): readonly SoundingNote[] {
  let tick = from;
  return text.split(/\s+/u).flatMap((token): SoundingNote[] => {
    const [, name = '', unit = '', dot = ''] = /^(-|[A-G][#b]?\d)([hesw]?)(\.?)$/u.exec(token) ?? [];
    const length = lengths.get(unit);
    if (name === '' || length === undefined) throw new Error(`no note: ${token}`);
    const start = tick;
    tick += beat * length * (dot ? 1.5 : 1);
    return name === '-' ? [] : [{ tick: start, endTick: tick, pitch: pitchOf(name), velocity: 80, part }];
  });
}

export function inOrder(notes: readonly SoundingNote[]): readonly SoundingNote[] {
  return [...notes].sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
}

/** The tick at which a chorale begins, so that its first whole bar begins on a bar line. */
export function startOf({ beatsPerBar, upbeat }: Chorale): number {
  return upbeat === 0 ? 0 : (beatsPerBar - upbeat) * beat;
}

export function notesOf(chorale: Chorale): readonly SoundingNote[] {
  return inOrder(chorale.voices.flatMap((text, part) => voice(text, part, startOf(chorale))));
}

/** Chords of notes that are struck together, each `length` beats long, one behind the other. */
export function chordsOf(chords: readonly (readonly number[])[], length = 2): readonly SoundingNote[] {
  return chords.flatMap((pitches, index) =>
    pitches.map(
      (pitch, part): SoundingNote => ({
        tick: index * length * beat,
        endTick: (index + 1) * length * beat,
        pitch,
        velocity: 80,
        part,
      }),
    ),
  );
}
