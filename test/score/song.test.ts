import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isScore, readSong } from '../../src/score/index.js';
import { bytesOf, trackOf } from '../support/song.js';
import { encode, notes, partwise } from './written.js';

const text = partwise([notes('C4/16')]);
const recording = bytesOf([trackOf([{ tick: 0, end: 100, pitch: 60 }])]);

describe('readSong', () => {
  it('tells scores from recordings by what is in them', () => {
    expect([text, `\ufeff${text}`, `\n\n${text}`].map((one) => isScore(encode(one)))).toEqual([
      true,
      true,
      true,
    ]);
    expect(isScore(new Uint8Array(Buffer.from(`\ufeff${text}`, 'utf16le')))).toBe(true);
    expect(isScore(new Uint8Array(readFileSync('test/score/files/90a-Compressed-MusicXML.mxl')))).toBe(true);
    expect(
      [recording, new Uint8Array(), encode('format: keyslip-cue/1'), encode('| C |')].map(isScore),
    ).toEqual([false, false, false, false]);
  });

  it('gives a score as the song that it is played as, and a recording as it stands', () => {
    const song = readSong(encode(text), 'night.musicxml').value;
    expect(song?.file).toBe('night.musicxml');
    expect(song?.tracks.map(({ name }) => name)).toEqual(['', 'Horn']);
    expect(readSong(recording, 'take.mid').value?.tracks.length).toBe(1);
  });

  it('holds both to the same limits', () => {
    const codes = (bytes: Uint8Array, limits: Parameters<typeof readSong>[2]) =>
      readSong(bytes, 'x', limits).diagnostics.map(({ code }) => code);
    expect(codes(encode(text), { maxBytes: 10 })).toEqual(['score-too-large']);
    expect(codes(recording, { maxBytes: 10 })).toEqual(['midi-too-large']);
    expect(codes(encode(text), { maxEvents: 2 })).toEqual(['midi-too-large']);
    expect(codes(recording, { maxEvents: 2 })).toEqual(['midi-too-large']);
  });

  it('tells why there is no song', () => {
    expect(readSong(encode('<html/>'), 'x').diagnostics).toMatchObject([
      { code: 'score-kind', severity: 'error' },
    ]);
    expect(readSong(encode('x'), 'x').diagnostics).toMatchObject([{ code: 'not-midi' }]);
  });
});
