import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EventBuilder, type Events, tickOf } from '../../../src/midi/events/index.js';
import { readMidi } from '../../../src/midi/read/index.js';
import type { Song, Track } from '../../../src/midi/song.js';
import { writeMidi } from '../../../src/midi/write/index.js';
import { draws } from '../../support/draws.js';
import { midiFile } from '../read/arbitrary.js';
import {
  bytes,
  endOfTrack,
  midi,
  printed,
  quantities,
  quantity,
  workedFormat0,
  workedFormat1,
} from '../read/bytes.js';
import { normal, trackBodies } from '../read/normal.js';
import { written } from './written.js';

function read(file: Uint8Array): Song {
  const { value, diagnostics } = readMidi(file, 'a.mid');
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return value;
}

/** Writes every track anew, from copies of its events in a track of their own. */
function rewritten(file: Uint8Array): Uint8Array {
  const song = read(file);
  return written(song, new Map(song.tracks.map((track) => [track.number, { events: anew(track) }])));
}

/** The events of a track, copied into bytes of their own. */
function anew({ columns }: Track): Events {
  const builder = new EventBuilder();
  for (let event = 0; event < columns.length; event++) builder.copy(tickOf(columns, event), columns, event);
  return builder.events();
}

/** Program changes at ticks. */
function programsAt(...ticks: readonly number[]): Events {
  const builder = new EventBuilder();
  for (const tick of ticks) builder.message(tick, 0xc0, 1);
  return builder.events();
}

describe('the worked examples of Standard MIDI File 1.0', () => {
  for (const [name, file] of [
    ['format 0', workedFormat0],
    ['format 1', workedFormat1],
  ] as const)
    it(`${name} is written as printed, copied and from its events`, () => {
      expect(printed(written(read(file)))).toBe(printed(file));
      expect(printed(rewritten(file))).toBe(printed(file));
    });
});

describe('variable-length quantities', () => {
  for (const [value, spelling] of quantities)
    it(`writes 0x${value.toString(16)} as ${spelling}`, () => {
      const events = programsAt(value);
      const file = written(read(midi([endOfTrack])), new Map([[1, { events }]]));
      expect(printed(file.subarray(22))).toBe(printed(bytes(`${spelling} C0 01`)));
    });

  it('tell of a time that they cannot say, in a track that changed', () => {
    const song = read(midi([endOfTrack, [0, 0xff, 3, 1, 0x41, ...endOfTrack]]));
    for (const deltaTime of [0x10000000, 2 ** 40, -1, 0.5, Number.NaN, Number.POSITIVE_INFINITY]) {
      const events = programsAt(9, 9 + deltaTime);
      const { value, diagnostics } = writeMidi(song, new Map([[2, { events }]]));
      expect(value).toBeUndefined();
      expect(diagnostics).toHaveLength(1);
      expect(diagnostics[0]).toMatchObject({
        code: 'midi-time',
        severity: 'error',
        place: { kind: 'music', file: 'a.mid', track: 2, trackName: 'A', bar: 1, beat: 1 },
      });
    }
  });

  it('tell of every such track at once', () => {
    const song = read(midi([endOfTrack, endOfTrack, endOfTrack]));
    const late = { events: programsAt(0x10000000) };
    const { diagnostics } = writeMidi(song, new Map([1, 3].map((number) => [number, late])));
    expect(diagnostics.map(({ place }) => place.kind === 'music' && place.track)).toEqual([1, 3]);
  });
});

/** Meta events that the parser would refuse or change, and others on the edge. */
const odd = {
  'sequence number of length 0': 'FF 00 00',
  'sequence number of length 3': 'FF 00 03 01 02 03',
  'channel prefix of length 2': 'FF 20 02 01 02',
  'channel prefix above 15': 'FF 20 01 FF',
  'port of length 0': 'FF 21 00',
  'end of track of length 1': 'FF 2F 01 00',
  'tempo of length 2': 'FF 51 02 07 A1',
  'tempo of length 4': 'FF 51 04 07 A1 20 99',
  'tempo of 0': 'FF 51 03 00 00 00',
  'the slowest tempo': 'FF 51 03 FF FF FF',
  'time signature of length 2': 'FF 58 02 03 02',
  'time signature of length 0': 'FF 58 00',
  'time signature without thirty-seconds': 'FF 58 04 03 02 18 00',
  'time signature of a unit of 2^31': 'FF 58 04 03 1F 18 08',
  'time signature of a unit of 2^255': 'FF 58 04 03 FF 18 08',
  'time signature of all bytes high': 'FF 58 04 FF 0A FF FF',
  'SMPTE offset with bit 7': 'FF 54 05 E1 02 03 04 05',
  'SMPTE offset of 29.97': 'FF 54 05 41 3B 3B 1D 63',
  'SMPTE offset with bytes of nonsense': 'FF 54 05 7F FF FF FF FF',
  'SMPTE offset of length 4': 'FF 54 04 00 00 00 00',
  'key signature of length 1': 'FF 59 01 00',
  'key signature out of range': 'FF 59 02 80 FF',
  'key signature of 7 flats, minor': 'FF 59 02 F9 01',
  'sequencer-specific': 'FF 7F 03 00 80 FF',
  'unknown type': 'FF 60 02 80 00',
  'unknown type above 0x7F': 'FF FE 01 01',
  'texts of high bytes':
    'FF 01 04 80 9F E9 FF 00 FF 02 02 FF FE 00 FF 03 01 80 00 FF 04 01 81 00 FF 05 01 E4',
  'texts of control bytes': 'FF 06 04 00 1B 5B 7F 00 FF 07 02 0D 0A',
  'empty texts': 'FF 01 00 00 FF 03 00 00 FF 05 00',
  'system exclusive in parts': 'F0 03 43 12 00 81 48 F7 06 43 12 00 43 12 00 64 F7 04 43 12 00 F7',
  'escaped realtime and song position': 'F7 01 F8 00 F7 03 F2 00 40',
  'empty system exclusive': 'F0 00 00 F7 00',
  'a release as velocity 0 and as 0x80': '90 3C 40 05 3C 00 05 3C 40 05 80 3C 00 05 90 3C 40 05 80 3C 7F',
  'pitch bends': 'E3 00 00 00 E3 7F 7F 00 E3 00 40 00 E3 01 00',
  pressure: 'A5 3C 7F 00 D5 7F 00 D5 00',
} as const;

describe('nothing is lost where a track is written anew', () => {
  for (const [name, event] of Object.entries(odd))
    it(name, () => {
      const file = midi([bytes(`00 ${event} 00 FF 2F 00`)]);
      const [before] = trackBodies(file);
      const [after] = trackBodies(rewritten(file));
      expect(normal(after ?? [])).toEqual(normal(before ?? []));
      // All are spelled as shortly as they can be and fit one block, so that even the bytes are the same.
      expect(printed(rewritten(file))).toBe(printed(file));
    });

  it('a text and a system exclusive event of 300,000 bytes', () => {
    const long = Uint8Array.from({ length: 300_000 }, (_, index) => (index * 7) % 256);
    for (const head of [[0xff, 1], [0xff, 3], [0xff, 0x7f], [0xff, 0x66], [0xf0], [0xf7]])
      for (const length of [255, 256, 257, 8192, 8193, 16_383, 16_384, long.length]) {
        const data = long.subarray(0, length);
        const body = Uint8Array.from([
          ...[0, 0x90, 60, 1, 0x60, 60, 0],
          ...[0x81, 0x00],
          ...head,
          ...quantity(length),
          ...data,
          ...[0, 0x90, 60, 1],
          ...endOfTrack,
        ]);
        const file = midi([body]);
        expect(Buffer.compare(rewritten(file), file)).toBe(0);
      }
  });

  it('every file that is in order says the same afterwards', () => {
    fc.assert(
      fc.property(midiFile, (file) => {
        const anew = rewritten(file);
        expect(trackBodies(anew).map(normal)).toEqual(trackBodies(file).map(normal));
        expect(anew.subarray(0, 14)).toEqual(file.subarray(0, 14));
        // Written once, it is in plain form, and is written the same again.
        expect(rewritten(anew)).toEqual(anew);
      }),
      { seed: 200, numRuns: draws(1000) },
    );
  });

  it('long stretches of running status keep it', () => {
    const run = Array.from({ length: 500 }, (_, index) => [
      index % 100,
      index % 128,
      1 + (index % 127),
    ]).flat();
    const file = midi([[0, 0x95, 1, 1, ...run, 0, 0xb5, 1, 2, ...run, ...endOfTrack]]);
    expect(printed(rewritten(file))).toBe(printed(file));
  });

  it('events put in between do not disturb the running status behind them', () => {
    const song = read(midi([bytes('00 90 3C 40 10 3C 00 10 3E 40 10 3E 00')]));
    const [track] = song.tracks;
    if (!track) throw new Error('not read');
    const builder = new EventBuilder();
    for (const event of [0, 1, 2, 3]) {
      if (event > 1) builder.message(16 * (event - 1), 0xb0, 1, 2);
      builder.copy(tickOf(track.columns, event), track.columns, event);
    }
    const file = written(song, new Map([[1, { events: builder.events() }]]));
    expect(trackBodies(file).map(normal)).toEqual([
      ['0 144: 60 64', '16 144: 60 0', '16 176: 1 2', '32 144: 62 64', '32 176: 1 2', '48 144: 62 0'],
    ]);
  });
});

describe('what is not changed', () => {
  it('is copied, whatever changes beside it', () => {
    // The running status and the long times of the first track would come out shorter if it were written anew.
    const first = bytes('80 00 90 3C 40 80 80 10 3C 00 00 FF 2F 00');
    const second = bytes('00 90 3C 40 00 FF 2F 00');
    const song = read(midi([first, second]));
    const anew = written(song, new Map([[2, { events: new EventBuilder().events() }]]));
    expect(printed(anew)).toBe(printed(midi([first, []])));
  });

  it('is the whole file where no track changes', () => {
    fc.assert(
      fc.property(midiFile, (file) => {
        expect(written(read(file))).toEqual(file);
      }),
      { seed: 201, numRuns: draws(300) },
    );
  });
});
