import { expect, it } from 'vitest';
import { keptNotes, noteAt } from '../../../src/midi/notes/notes.js';
import { pairNotes } from '../../../src/midi/notes/pair.js';
import { songOf, trackOf } from '../../support/song.js';

it('some notes of several are as they were, in their order', () => {
  const notes = Array.from({ length: 9 }, (_, index) => ({
    tick: index * 10,
    end: index * 10 + 35,
    pitch: 60 + (index % 5),
    velocity: 20 + index,
  }));
  const [track] = songOf([trackOf(notes)]).tracks;
  if (!track) throw new Error('no track');
  const all = pairNotes(track.columns, 0).notes;
  const objects = Array.from({ length: all.length }, (_, note) => noteAt(all, note));
  for (const isKept of [(note: number) => note % 3 === 1, () => true, () => false]) {
    const kept = keptNotes(all, isKept);
    expect(Array.from({ length: kept.length }, (_, note) => noteAt(kept, note))).toEqual(
      objects.filter((_, note) => isKept(note)),
    );
  }
});

it('notes later than 32 bits can say stay where they are', () => {
  const late = 2 ** 33;
  const column = Float64Array.of(0, late);
  const bytes = Uint8Array.of(60, 61);
  const notes = {
    length: 2,
    on: Uint32Array.of(0, 1),
    off: Int32Array.of(-1, -1),
    tick: column,
    endTick: column,
    pitch: bytes,
    velocity: bytes,
  };
  expect(
    noteAt(
      keptNotes(notes, (note) => note === 1),
      0,
    ),
  ).toMatchObject({ tick: late, offIndex: -1, pitch: 61 });
});
