import { describe, expect, it } from 'vitest';
import { areVersions, becomesIn, compareArticulations, compareMaps } from '../../src/compare/index.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import { detached } from '../support/decided.js';
import { msTicks } from '../support/line.js';
import { readWhole } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';

const head = (library: string, instrument = 'Horns') =>
  `format: keyslip-map/1\nlibrary: ${library}\ninstrument: ${instrument}\nfamily: brass\nnote-60: C4\nrange: [C2, C6]\n`;
const old = readWhole(`${head('Weir Brass')}articulations:
  short: {means: [staccato], switch: {note: C0}}
  accented: {means: [marc.], switch: {note: D0}}
  hand: {means: [stopped], switch: {note: E0}}
  long: {means: [tenuto], switch: {note: F0}}
rules:
  - {when: {held: {below: 200ms}}, use: short}
  - {when: {velocity: {from: 100}}, use: accented}
  - {when: {held: {from: 900ms}}, use: hand}
  - {use: long}
`);
const other = readWhole(`${head('Mill Brass')}articulations:
  long: {means: [staccato], switch: {note: C0}}
  sustain: {means: [tenuto], switch: {note: D0}}
  spare: {means: [tremolo], switch: {note: E0}}
rules:
  - {when: {held: {below: 150ms}}, use: long}
  - {use: sustain}
`);

describe('maps of two libraries', () => {
  it('are matched by what articulations mean, whatever they are called', () => {
    expect(becomesIn(old, other)).toEqual([
      { from: 'short', to: 'long', likeness: 'same' },
      { from: 'accented', to: 'sustain', likeness: 'plain' },
      { from: 'hand', to: null, likeness: 'lost' },
      { from: 'long', to: 'sustain', likeness: 'same' },
    ]);
    expect(compareArticulations(old, other)).toMatchObject({
      onlyA: ['hand'],
      onlyB: ['spare'],
      reswitched: [],
    });
  });

  it('change the notes that mean something else by the second, and no others', () => {
    // By hand: 100 ms is staccato in both; 170 ms is staccato, then tenuto; 500 ms is tenuto in both; 950 ms is stopped, then tenuto.
    const song = songOf([trackOf(detached([100, 170, 500, 950]))], msTicks);
    const [part] = compareMaps(song, song.tracks.flatMap(partsOf), old, other).parts;
    expect(
      [...(part?.changed ?? [])].map(({ number, from, to, likeness }) => [
        number,
        from.articulation,
        to.articulation,
        likeness,
      ]),
    ).toEqual([
      [2, 'short', 'sustain', 'lost'],
      [4, 'hand', 'sustain', 'lost'],
    ]);
  });

  it('count what comes near as a change, and say how near it comes', () => {
    const loud = detached([500]).map((note) => ({ ...note, velocity: 110 }));
    const song = songOf([trackOf(loud)], msTicks);
    const [part] = compareMaps(song, song.tracks.flatMap(partsOf), old, other).parts;
    expect([...(part?.changed ?? [])]).toMatchObject([
      { from: { articulation: 'accented' }, to: { articulation: 'sustain' }, likeness: 'plain' },
    ]);
  });
});

describe('versions of one map', () => {
  const version = (library: string, instrument?: string) =>
    readWhole(
      `${head(library, instrument)}articulations:\n  long: {means: [staccato]}\nrules:\n  - {use: long}\n`,
    );

  it('are told by library and instrument', () => {
    expect(areVersions(old, version('Weir Brass'))).toBe(true);
    expect(areVersions(old, version('Weir Brass', 'Trumpets'))).toBe(false);
    expect(areVersions(old, version('Mill Brass'))).toBe(false);
  });

  it('are matched by name, also where a name means something else by now', () => {
    const found = compareArticulations(old, version('Weir Brass'));
    expect(found).toMatchObject({ onlyA: ['short', 'accented', 'hand'], onlyB: [] });
    expect(found).not.toHaveProperty('becomes');
    const song = songOf([trackOf(detached([500]))], msTicks);
    const compared = compareMaps(song, song.tracks.flatMap(partsOf), old, version('Weir Brass'));
    expect(compared.parts[0]?.changed).toHaveLength(0);
  });
});
