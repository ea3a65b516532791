import { expect, it } from 'vitest';
import { compareTakes, type Take } from '../../../src/compare/index.js';
import { partsOf } from '../../../src/compile/analyse/index.js';
import { compileParts } from '../../../src/compile/index.js';
import { takeDiagnostics } from '../../../src/report/index.js';
import { ladderMap, mapOf } from '../../support/map.js';
import { songOf, type TestNote, type Timed, trackOf } from '../../support/song.js';

const map = mapOf(ladderMap);

function takeOf(notes: readonly TestNote[], value: number): Take {
  const event = { type: 'controller', channel: 0, controllerType: 1, value } as Timed['event'];
  const song = songOf([trackOf(notes, [{ tick: 1920, event }], 'Horns')]);
  const jobs = song.tracks.flatMap(partsOf).map((part) => ({ part, map }));
  return {
    song,
    parts: compileParts(song, jobs).parts.map((part) => ({ key: 'Horns', name: 'Horns', part })),
  };
}

it('what differs between two takes is told once for each part and bar, and for each kind of other events', () => {
  const notes = [0, 480, 1920].map((tick) => ({ tick, end: tick + 96, pitch: 60 }));
  const other = [
    ...notes.slice(0, 1),
    { tick: 480, end: 776, pitch: 60 },
    { tick: 1920, end: 2016, pitch: 62 },
  ];
  const found = takeDiagnostics(compareTakes(takeOf(notes, 1), takeOf(other, 2)), 'two.mid');
  expect(found.map(({ code, message }) => [code, message])).toEqual([
    ['changed-take', 'Horns: 1 note removed, 1 note added'],
    ['changed-take', 'Horns: 1 note played otherwise, 1 note short → medium'],
    ['changed-take', 'controller 1 of track 1 "Horns" in bar 2: 1 removed, 1 added'],
  ]);
});
