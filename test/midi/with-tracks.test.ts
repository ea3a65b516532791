import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { readMidi, withTracks, writeMidi } from '../../src/midi/index.js';
import { songOf, trackOf } from '../support/song.js';

const chunk = (id: string, ...body: readonly number[]) => [
  ...Array.from(id, (letter) => letter.charCodeAt(0)),
  ...[0, 0, 0, body.length],
  ...body,
];
const head = chunk('MThd', 0, 1, 0, 1, 0, 96);
const body = chunk('MTrk', 0, 0x90, 60, 80, 10, 0x80, 60, 0, 0, 0xff, 0x2f, 0);

/** Standard MIDI File 1.0: chunks of other kinds are passed over; fewer than eight bytes are no chunk. */
describe('tracks that are added to a song', () => {
  const [added] = songOf([trackOf([{ tick: 0, end: 96, pitch: 64 }], [], 'Layer')]).tracks;
  for (const [what, tail] of [
    ['nothing', []],
    ['bytes that are no chunk', [1, 2, 3]],
    ['a chunk of another kind', chunk('XFIH', 1, 2)],
  ] as const)
    it(`stand behind its tracks, where the file has ${what} behind them`, () => {
      const { value: song } = readMidi(Uint8Array.from([...head, ...body, ...tail]), 'a.mid');
      if (!song || !added) throw new Error('not read');
      const { value } = writeMidi(withTracks(song, new Map(), [{ ...added, number: 2 }]), new Map());
      const bytes = value ?? new Uint8Array();
      const strikes = parseMidi(bytes.subarray(0, bytes.length - tail.length)).tracks.map(
        (track) => track.filter(({ type }) => type === 'noteOn').length,
      );
      expect(strikes).toEqual([1, 1]);
      expect(Array.from(bytes.subarray(bytes.length - tail.length))).toEqual(tail);
      expect(readMidi(bytes, 'b.mid').value?.tracks).toHaveLength(2);
    });
});
