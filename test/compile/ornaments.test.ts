import { describe, expect, it } from 'vitest';
import { compileParts, ornamented } from '../../src/compile/index.js';
import { compile, prove } from '../../src/index.js';
import type { Song } from '../../src/midi/index.js';
import { readSong } from '../../src/score/index.js';
import { encode, note, partwise } from '../score/written.js';
import { decisionsIn } from '../support/decided.js';
import { mapOf } from '../support/map.js';

const articulations = (trill: string, rule = '') => `
range: [C3, C7]
articulations:
  plain: {switch: {note: C0}}
  special: {${trill} switch: {note: D0}}
rules:
${rule}  - use: plain
`;
const meaning = articulations('means: [trill-mark],');
const ruled = articulations('', '  - {marked: trill-mark, use: special}\n');
const without = articulations('');

const trill = note('D5/4', '<notations><ornaments><trill-mark/></ornaments></notations>');
const turn = note('D5/4', '<notations><ornaments><turn/></ornaments></notations>');
const score = partwise([trill + turn + note('D5/8')]);

function songOf(): Song {
  const { value } = readSong(encode(score), 'score.musicxml');
  if (!value) throw new Error('not read');
  return value;
}

/** What each note of the score sounds with, by one map. */
function decided(yaml: string): readonly string[] {
  const map = mapOf(yaml);
  const song = ornamented(songOf(), [{ track: 2, map }]);
  const { parts } = compileParts(song, [{ part: { track: 2, trackName: 'Horn', channel: 0 }, map }]);
  return parts.flatMap((part) => decisionsIn(part).map(({ articulation }) => articulation));
}

describe('ornaments of a score, by the map that plays them', () => {
  it('are one note with its mark where the map has a sound that means it, and played out where it has none', () => {
    // one trilled note, the four notes of a turn, and a plain note
    expect(decided(meaning)).toEqual(['special', ...Array<string>(5).fill('plain')]);
    expect(decided(without)).toEqual(Array<string>(6 + 5).fill('plain'));
  });

  it('are one note where a rule asks for the mark, or an articulation has its name', () => {
    expect(decided(ruled)[0]).toBe('special');
    expect(decided(ruled)).toHaveLength(6);
    expect(decided(without.replaceAll('special', 'trill-mark')).slice(0, 2)).toEqual(['trill-mark', 'plain']);
  });

  it('of one or two strokes are notes repeated, though the map has a tremolo', () => {
    const tremolo = (marks: number) =>
      partwise([
        note(
          'D5/16',
          `<type>whole</type><notations><ornaments><tremolo>${marks}</tremolo></ornaments></notations>`,
        ),
      ]);
    const map = mapOf(meaning.replace('trill-mark', 'tremolo'));
    const notes = (text: string) => {
      const { value } = readSong(encode(text), 'score.musicxml');
      const song = value && ornamented(value, [{ track: 2, map }]);
      const jobs = [{ part: { track: 2, trackName: 'Horn', channel: 0 }, map }];
      return song && decisionsIn(compileParts(song, jobs).parts[0]).map(({ articulation }) => articulation);
    };
    expect(notes(tremolo(3))).toEqual(['special']);
    expect(notes(tremolo(2))).toEqual(Array<string>(16).fill('plain'));
    expect(notes(tremolo(1))).toHaveLength(8);
  });

  it('of a track that two maps play are one note only where both have the sound', () => {
    const both = (a: string, b: string) =>
      ornamented(songOf(), [
        { track: 2, map: mapOf(a) },
        { track: 2, map: mapOf(b) },
      ]);
    const length = (song: Song) => song.tracks[1]?.columns.length ?? 0;
    expect(length(both(meaning, without))).toBeGreaterThan(length(both(meaning, ruled)));
  });

  it('leave a track that no map plays, and a recording, as they are', () => {
    const song = songOf();
    expect(ornamented(song, [])).toBe(song);
    const { performance: _, ...recording } = song as Song & { readonly performance: unknown };
    expect(ornamented(recording, [{ track: 2, map: mapOf(without) }])).toBe(recording);
  });

  it('are proved as they are played', () => {
    const head = 'format: keyslip-map/1\nlibrary: Test\ninstrument: Test\nfamily: other\nnote-60: C4\n';
    const yaml = (text: string) => `${head}${text}`;
    for (const map of [meaning, without].map(yaml)) {
      const { bytes, diagnostics } = compile(encode(score), { maps: { map }, name: 'score.musicxml' });
      expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
      const { isProved, violations } = prove(bytes ?? new Uint8Array(), {
        maps: { map },
        against: encode(score),
      });
      expect({ isProved, violations }).toEqual({ isProved: true, violations: [] });
    }
  });
});
