import { expect, it } from 'vitest';
import { readSong } from '../../src/score/index.js';
import { encode, note, partwise } from '../score/written.js';
import { mapOf } from '../support/map.js';
import { compiledCue, notesOf } from './support.js';

const map = (trill: string) =>
  mapOf(`
range: [C3, C7]
articulations:
  plain: {switch: {note: C0}}
  special: {${trill}switch: {note: D0}}
rules:
  - use: plain
`);
const maps = { 'trills.yaml': map('means: [trill-mark], '), 'none.yaml': map('') };
const bar = note('D5/16', '<notations><ornaments><trill-mark beats="4"/></ornaments></notations>');
const two = partwise(
  [bar],
  ['P1', 'P2'].map((id) => `<score-part id="${id}"><part-name>${id}</part-name></score-part>`).join(''),
).replace(/<part id="P1">.*<\/part>/su, (part) => part + part.replace('P1', 'P2'));

it('a trill of a score is one note for the part whose map has it, and four for the other', () => {
  const { value: song } = readSong(encode(two), 'score.musicxml');
  if (!song) throw new Error('not read');
  const { song: done } = compiledCue(
    '  - {name: P1, track: P1, map: trills.yaml}\n  - {name: P2, track: P2, map: none.yaml}\n',
    song,
    maps,
  );
  const pitches = (track: number) => notesOf(done?.tracks[track]).map(([, , pitch]) => pitch);
  expect([pitches(1), pitches(2)]).toEqual([[74], [76, 74, 76, 74]]);
});
