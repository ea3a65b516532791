import fc from 'fast-check';
import type { MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { noteAt } from '../../../src/midi/notes/notes.js';
import { pairNotes as pairColumns } from '../../../src/midi/notes/pair.js';
import type { Track } from '../../../src/midi/song.js';
import { songOf } from '../../support/song.js';

function track(events: readonly (readonly [delta: number, on: boolean, pitch: number, channel?: number])[]) {
  const midi = events.map(
    ([deltaTime, on, noteNumber, channel = 0]) =>
      ({ deltaTime, type: on ? 'noteOn' : 'noteOff', channel, noteNumber, velocity: 64 }) as MidiEvent,
  );
  const [first] = songOf([[...midi, { deltaTime: 10, type: 'endOfTrack', meta: true }]]).tracks;
  if (!first) throw new Error('no track');
  return first;
}

/** The notes as objects, to say what they are to be like. */
function pairNotes({ columns }: Track, channel: number) {
  const { notes, strayOffs } = pairColumns(columns, channel);
  return { notes: Array.from({ length: notes.length }, (_, note) => noteAt(notes, note)), strayOffs };
}

describe('pairing note-ons with releases', () => {
  it('ends the earliest open note of a pitch first', () => {
    const { notes } = pairNotes(
      track([
        [0, true, 60],
        [10, true, 60],
        [10, false, 60],
        [10, false, 60],
      ]),
      0,
    );
    expect(notes.map(({ tick, endTick }) => [tick, endTick])).toEqual([
      [0, 20],
      [10, 30],
    ]);
  });

  it('lets an open note end with the track, and says so by its index', () => {
    const { notes } = pairNotes(
      track([
        [0, true, 60],
        [10, true, 62],
        [10, false, 62],
      ]),
      0,
    );
    expect(notes[0]).toMatchObject({ offIndex: -1, tick: 0, endTick: 30 });
    expect(notes[1]).toMatchObject({ offIndex: 2, endTick: 20 });
  });

  it('takes a note-on with velocity 0 for a release (MIDI 1.0)', () => {
    const midi = [
      { deltaTime: 0, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 64 },
      { deltaTime: 5, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0, byte9: true },
      { deltaTime: 0, type: 'endOfTrack', meta: true },
    ] as MidiEvent[];
    const [only] = songOf([midi]).tracks;
    if (!only) throw new Error('no track');
    expect(pairNotes(only, 0).notes).toMatchObject([{ tick: 0, endTick: 5 }]);
  });

  it('leaves other channels alone and reports releases without a note', () => {
    const pairing = pairNotes(
      track([
        [0, true, 60, 1],
        [1, true, 60, 0],
        [1, false, 61, 0],
        [1, false, 60, 0],
      ]),
      0,
    );
    expect(pairing.notes).toHaveLength(1);
    expect(pairing.strayOffs).toEqual([2]);
  });

  it('uses every release at most once, never before its note-on', () => {
    const events = fc.array(fc.tuple(fc.nat(20), fc.boolean(), fc.integer({ min: 60, max: 62 })), {
      maxLength: 60,
    });
    fc.assert(
      fc.property(events, (list) => {
        const { notes, strayOffs } = pairNotes(track(list), 0);
        const offs = notes.map(({ offIndex }) => offIndex).filter((index) => index >= 0);
        expect(new Set([...offs, ...strayOffs]).size).toBe(list.filter(([, on]) => !on).length);
        expect(notes).toHaveLength(list.filter(([, on]) => on).length);
        for (const { onIndex, offIndex } of notes) expect(offIndex < 0 || offIndex > onIndex).toBe(true);
      }),
      { seed: 11 },
    );
  });
});
