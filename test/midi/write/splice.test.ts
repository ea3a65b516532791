import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arranged,
  Insertions,
  ticksUpTo,
  withChannels,
  withSecondData,
} from '../../../src/midi/events/index.js';
import { messageOf } from '../../../src/midi/index.js';
import { readMidi } from '../../../src/midi/read/index.js';
import type { Song, Track } from '../../../src/midi/song.js';
import { draws } from '../../support/draws.js';
import { midiFile } from '../read/arbitrary.js';
import { bytes, midi, printed, workedFormat0, workedFormat1 } from '../read/bytes.js';
import { normal, trackBodies } from '../read/normal.js';
import { written } from './written.js';

function read(file: Uint8Array): Song {
  const { value, diagnostics } = readMidi(file, 'a.mid');
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return value;
}

/** Splices every track with nothing. */
function copied(file: Uint8Array): Uint8Array {
  const song = read(file);
  return written(song, new Map(song.tracks.map(({ number, columns }) => [number, { events: columns }])));
}

/** The only track of a body. */
function only(body: string): { readonly song: Song; readonly track: Track } {
  const song = read(midi([bytes(body)]));
  const [track] = song.tracks;
  if (!track) throw new Error('no track');
  return { song, track };
}

type Message = readonly [before: number, tick: number, status: number, one: number, two?: number];

/** The body of a track with messages put in, printed. */
function spliced(body: string, ...messages: readonly Message[]): string {
  const { song, track } = only(body);
  const insertions = new Insertions();
  for (const [before, tick, ...message] of messages) insertions.put(before, tick, 0, messageOf(...message));
  const file = written(song, new Map([[1, { events: track.columns, insertions }]]));
  return printed(file.subarray(22));
}

describe('a track that is spliced with nothing', () => {
  it('is the same, byte for byte: the worked examples of Standard MIDI File 1.0', () => {
    expect(printed(copied(workedFormat0))).toBe(printed(workedFormat0));
    expect(printed(copied(workedFormat1))).toBe(printed(workedFormat1));
  });

  it('is the same, byte for byte, with any running status and any spelling of times and lengths', () => {
    fc.assert(
      fc.property(midiFile, (file) => {
        expect(printed(copied(file))).toBe(printed(file));
      }),
      { seed: 210, numRuns: draws(1000) },
    );
  });
});

describe('a message that is put in', () => {
  it('names its status, and so does the event behind it', () => {
    const body = '00 90 3C 40 10 3C 00 10 3E 40';
    expect(spliced(body, [1, 8, 0xb0, 1, 2])).toBe(
      printed(bytes('00 90 3C 40 08 B0 01 02 08 90 3C 00 10 3E 40')),
    );
  });

  it('lets the status be left out behind it where it is the same', () => {
    const body = '00 90 3C 40 10 3C 00';
    expect(spliced(body, [1, 8, 0x90, 5, 6])).toBe(printed(bytes('00 90 3C 40 08 90 05 06 08 3C 00')));
  });

  it('has one data byte where it is a program or pressure', () => {
    expect(spliced('00 90 3C 40', [0, 0, 0xc5, 7], [0, 0, 0xd5, 8])).toBe(
      printed(bytes('00 C5 07 00 D5 08 00 90 3C 40')),
    );
  });

  it('leaves a time that it does not change in its spelling', () => {
    const body = '80 80 05 90 3C 40 80 10 3C 00';
    expect(spliced(body, [1, 5, 0xb0, 1, 2])).toBe(
      printed(bytes('80 80 05 90 3C 40 00 B0 01 02 80 10 90 3C 00')),
    );
    expect(spliced(body, [1, 6, 0xb0, 1, 2])).toBe(
      printed(bytes('80 80 05 90 3C 40 01 B0 01 02 0F 90 3C 00')),
    );
  });

  it('may stand at the end, also of an empty track', () => {
    expect(spliced('', [0, 3, 0xb0, 1, 2])).toBe('03B00102');
    expect(spliced('00 FF 2F 00', [1, 3, 0xb0, 1, 2])).toBe('00FF2F0003B00102');
  });

  it('goes by place, then tick, then rank, then as it came', () => {
    const { song, track } = only('00 90 3C 40 10 3C 00');
    const insertions = new Insertions();
    insertions.put(2, 16, 0, messageOf(0xb0, 9));
    insertions.put(1, 8, 2, messageOf(0xb0, 5));
    insertions.put(1, 8, 1, messageOf(0xb0, 3));
    insertions.put(1, 8, 1, messageOf(0xb0, 4));
    insertions.put(1, 4, 9, messageOf(0xb0, 2));
    insertions.put(0, 0, 0, messageOf(0xb0, 1));
    const [body = []] = trackBodies(written(song, new Map([[1, { events: track.columns, insertions }]])));
    const controllers = normal(body).filter((said) => said.includes(' 176:'));
    expect(controllers).toEqual(
      [1, 2, 3, 4, 5, 9].map((one, at) => `${[0, 4, 8, 8, 8, 16][at]} 176: ${one} 0`),
    );
  });

  /** Messages at places of a track of ticks, none earlier than what stands before it. */
  const put = (ticks: ArrayLike<number>, picks: readonly (readonly [number, number, number])[]): Message[] =>
    picks.map(([where, when, status]) => {
      const before = where % (ticks.length + 1);
      const from = ticks[before - 1] ?? 0;
      const to = ticks[before] ?? from + 500;
      return [before, from + (when % (to - from + 1)), 0x80 + (status % 0x70), when % 128, where % 128];
    });

  it('leaves everything else as it is, and adds no more than itself, in any file', () => {
    const picks = fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat()), { maxLength: 20 });
    fc.assert(
      fc.property(midiFile, picks, (file, picked) => {
        const song = read(file);
        const [track] = song.tracks;
        if (!track) throw new Error('no track');
        const messages = put(track.columns.ticks, picked);
        const insertions = new Insertions();
        for (const [before, tick, ...message] of messages)
          insertions.put(before, tick, 0, messageOf(...message));
        const anew = written(song, new Map([[1, { events: track.columns, insertions }]]));
        const [was = [], ...others] = trackBodies(file).map(normal);
        const [is = [], ...sameOthers] = trackBodies(anew).map(normal);
        expect(sameOthers).toEqual(others);
        // By the definition: at each place the messages by their tick, and then the event.
        const expected = [...was, ''].flatMap((said, place) => [
          ...messages
            .filter(([before]) => before === place)
            .sort(([, a], [, b]) => a - b)
            .map(([, tick, status, one, two]) => {
              const isShort = status >= 0xc0 && status < 0xe0;
              return `${tick} ${status}: ${one}${isShort ? '' : ` ${two}`}`;
            }),
          ...(said === '' ? [] : [said]),
        ]);
        expect(is).toEqual(expected);
        // A message has at most seven bytes; the event behind it may need its status.
        expect(anew.length).toBeLessThanOrEqual(file.length + 8 * messages.length);
      }),
      { seed: 211, numRuns: draws(600) },
    );
  });
});

describe('events that change', () => {
  it('on another channel name their status, and the next one of the old channel does', () => {
    const { song, track } = only('00 90 3C 40 10 3E 40 10 3F 40');
    const events = withChannels(track.columns, new Map([[1, 5]]));
    expect(printed(written(song, new Map([[1, { events }]])).subarray(22))).toBe(
      printed(bytes('00 90 3C 40 10 95 3E 40 10 90 3F 40')),
    );
  });

  it('in their value change one byte, and not in the file that was read', () => {
    const file = midi([bytes('00 90 3C 40 10 3E 40')]);
    const song = read(file);
    const [track] = song.tracks;
    if (!track) throw new Error('no track');
    const events = withSecondData(track.columns, new Map([[1, 99]]));
    const anew = written(song, new Map([[1, { events }]]));
    expect(printed(anew.subarray(22))).toBe('00903C40103E63');
    expect(printed(written(song))).toBe(printed(file));
  });

  it('in their order keep what they say, in any order of any file', () => {
    fc.assert(
      fc.property(midiFile, fc.array(fc.nat(2000), { minLength: 1 }), (file, steps) => {
        const song = read(file);
        const [track] = song.tracks;
        if (!track) throw new Error('no track');
        const { length } = track.columns;
        const keys = Array.from(
          { length },
          (_, event) => (steps[event % steps.length] ?? 0) * ((event % 3) + 1),
        );
        // Some are left out.
        const order = keys.map((_, event) => event).filter((event) => (keys[event] ?? 0) % 5 !== 4);
        order.sort((a, b) => (keys[a] ?? 0) - (keys[b] ?? 0));
        const ticks = ticksUpTo(6000, order.length);
        order.forEach((event, at) => {
          ticks[at] = keys[event] ?? 0;
        });
        const events = arranged(track.columns, order, ticks);
        const [is = []] = trackBodies(written(song, new Map([[1, { events }]]))).map(normal);
        const [was = []] = trackBodies(file).map(normal);
        const said = (event: number) => was[event]?.replace(/^\d+/u, `${keys[event]}`);
        expect(is).toEqual(order.map(said));
      }),
      { seed: 212, numRuns: draws(600) },
    );
  });

  it('behind a meta event that they did not follow before name their status (Standard MIDI File 1.0)', () => {
    const { song, track } = only('00 90 3C 40 10 3E 40 10 FF 01 00');
    const events = arranged(track.columns, [0, 2, 1], Int32Array.of(0, 0, 16));
    expect(printed(written(song, new Map([[1, { events }]])).subarray(22))).toBe(
      printed(bytes('00 90 3C 40 00 FF 01 00 10 90 3E 40')),
    );
  });
});
