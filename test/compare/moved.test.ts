import { describe, expect, it } from 'vitest';
import { type Decided, movedNotes } from '../../src/compare/index.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import { compileParts } from '../../src/compile/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import type { Song } from '../../src/midi/song.js';
import { detached } from '../support/decided.js';
import { msTicks } from '../support/line.js';
import { readWhole } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';

const map = (library: string, range: string, rest: string) =>
  readWhole(
    `format: keyslip-map/1\nlibrary: ${library}\ninstrument: Horns\nfamily: brass\nnote-60: C4\nrange: ${range}\n${rest}`,
  );
const old = map(
  'Weir Brass',
  '[C3, C6]',
  `articulations:
  short: {means: [staccato], switch: {note: C0}}
  hand: {means: [stopped], switch: {note: E0}}
  long: {means: [tenuto], switch: {note: F0}}
rules:
  - {when: {held: {below: 200ms}}, use: short}
  - {when: {held: {from: 900ms}}, use: hand}
  - {use: long}
`,
);
const other = map(
  'Mill Brass',
  '[C3, E4]',
  `articulations:
  spic: {means: [staccato], switch: {note: C0}}
  hold: {means: [tenuto], switch: {note: D0}}
rules:
  - {when: {held: {below: 150ms}}, use: spic}
  - {use: hold}
`,
);

function decided(song: Song, by: ArticulationMap): readonly Decided[] {
  const jobs = song.tracks.flatMap(partsOf).map((part) => ({ part, map: by }));
  return compileParts(song, jobs).parts;
}

const moved = (song: Song, a: ArticulationMap, b: ArticulationMap) =>
  movedNotes(decided(song, a), decided(song, b));

describe('the notes of a part in another library', () => {
  // A bar is 2000 ms at 120 bpm. By hand: the notes begin at 0, 120, 310 and 830 ms; the last at 1800 ms.
  const lengths = [100, 170, 500, 950, 100];
  const song = songOf([trackOf(detached(lengths))], msTicks);

  it('are told by what they were and what they are, with how near that comes', () => {
    expect(moved(song, old, other)).toEqual({
      notes: 5,
      moved: [
        { from: 'short', to: 'spic', likeness: 'same', notes: 2, bars: [{ from: 1, to: 1 }] },
        { from: 'short', to: 'hold', likeness: 'lost', nearer: 'spic', notes: 1, bars: [{ from: 1, to: 1 }] },
        { from: 'hand', to: 'hold', likeness: 'lost', notes: 1, bars: [{ from: 1, to: 1 }] },
        { from: 'long', to: 'hold', likeness: 'same', notes: 1, bars: [{ from: 1, to: 1 }] },
      ],
    });
  });

  it('are told where the old library has them and the new one has not', () => {
    const high = songOf(
      [
        trackOf([
          { tick: 0, end: 100, pitch: 64 },
          { tick: 2000, end: 2100, pitch: 65 },
          { tick: 6000, end: 6100, pitch: 72 },
          // Above both ranges: it does not fit now either.
          { tick: 8000, end: 8100, pitch: 90 },
        ]),
      ],
      msTicks,
    );
    expect(moved(high, old, other).outside).toEqual({
      notes: 2,
      bars: [
        { from: 2, to: 2 },
        { from: 4, to: 4 },
      ],
      low: 65,
      high: 72,
    });
    expect(moved(high, old, old)).not.toHaveProperty('outside');
  });

  it('are all what they were in the same library', () => {
    const { notes, moved: rows } = moved(song, old, old);
    expect([notes, rows.map(({ from, to, likeness }) => [from, to, likeness])]).toEqual([
      5,
      [
        ['short', 'short', 'name'],
        ['hand', 'hand', 'name'],
        ['long', 'long', 'name'],
      ],
    ]);
  });

  it('are none where there are none', () => {
    expect(movedNotes([], [])).toEqual({ notes: 0, moved: [] });
  });
});
