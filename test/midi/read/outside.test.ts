import tonejs from '@tonejs/midi';
import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { firstData, kindOf, lastTick, secondData, statusOf, tickOf } from '../../../src/midi/events/index.js';
import { pairedNotes } from '../../../src/midi/notes/objects.js';
import { partsOf } from '../../../src/midi/notes/parts.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { draws } from '../../support/draws.js';
import { signature, songWith, tempo } from '../clock/songs.js';
import { plainFile } from './arbitrary.js';
import { endOfTrack, midi, quantity } from './bytes.js';

const { Header, Midi } = tonejs;

describe('our reader and the reader midi-file', () => {
  it('agree on every event of every file that midi-file can read', () => {
    fc.assert(
      fc.property(plainFile, (file) => {
        const { value: song } = readMidi(file, 'a.mid');
        const parsed = parseMidi(file).tracks;
        expect(song?.tracks.map(({ events }) => events.map(plain))).toEqual(
          parsed.map((events) => events.map(plain)),
        );
      }),
      { seed: 220, numRuns: draws(600) },
    );
  });

  it('agree on ticks and bytes of messages', () => {
    fc.assert(
      fc.property(plainFile, (file) => {
        const { value: song } = readMidi(file, 'a.mid');
        parseMidi(file).tracks.forEach((events, index) => {
          const columns = song?.tracks[index]?.columns;
          if (!columns) throw new Error('not read');
          let tick = 0;
          events.forEach((event, at) => {
            tick += event.deltaTime;
            expect(tickOf(columns, at)).toBe(tick);
            if (event.type !== 'controller') return;
            expect([kindOf(columns, at), statusOf(columns, at) & 15]).toEqual([0xb0, event.channel]);
            expect([firstData(columns, at), secondData(columns, at)]).toEqual([
              event.controllerType,
              event.value,
            ]);
          });
          expect(lastTick(columns)).toBe(tick);
        });
      }),
      { seed: 221, numRuns: draws(300) },
    );
  });
});

/** An event with its bytes as a list. */
function plain(event: object): unknown {
  return 'data' in event ? { ...event, data: Array.from(event.data as ArrayLike<number>) } : event;
}

describe('our clock and the header of @tonejs/midi', () => {
  const changes = fc.uniqueArray(
    fc.record({
      tick: fc.oneof(fc.nat(4000), fc.nat(1_000_000)),
      microseconds: fc.integer({ min: 1, max: 0xffffff }),
      upper: fc.integer({ min: 1, max: 255 }),
      lower: fc.constantFrom(1, 2, 4, 8, 16, 1024),
    }),
    { maxLength: 40, selector: ({ tick }) => tick },
  );

  it('say the same time of every tempo, to the last bit, and the same signatures', () => {
    fc.assert(
      fc.property(changes, fc.constantFrom(1, 24, 96, 480, 960, 10_080, 32_767), (found, ppq) => {
        const metas = found.flatMap(({ tick, microseconds, upper, lower }) => [
          tempo(tick, microseconds),
          signature(tick, upper, lower),
        ]);
        const song = songWith([[tempo(0, 500_000), signature(0, 4, 4), ...metas]], { division: ppq });
        const clock = clockOf(song, 1);
        let absoluteTime = 0;
        const timed = (song.tracks[0]?.events ?? []).map((event) => {
          absoluteTime += event.deltaTime;
          return { ...event, absoluteTime };
        });
        // One tempo a tick: of several, theirs are all kept, and ours is the last.
        const lasting = timed.filter(
          ({ type, absoluteTime: at }, index) =>
            !timed.slice(index + 1).some((other) => other.type === type && other.absoluteTime === at),
        );
        const header = new Header({
          header: { format: 0, numTracks: 1, ticksPerBeat: ppq },
          tracks: [lasting],
        } as never);
        for (const { ticks, time = Number.NaN } of header.tempos) expect(clock.ms(ticks)).toBe(time * 1000);
        header.timeSignatures.forEach(({ ticks, timeSignature }, index) => {
          const [upper = 0, lower = 1] = timeSignature;
          const behind = ticks + Math.ceil((4 * ppq * upper) / lower);
          // Said again, it begins no bar; and the next one may cut its first bar short.
          const before = header.timeSignatures[index - 1]?.timeSignature;
          if (before?.[0] === upper && before[1] === lower) return;
          if (behind > (header.timeSignatures[index + 1]?.ticks ?? Number.POSITIVE_INFINITY)) return;
          const bar = clock.position(ticks)?.bar ?? 0;
          expect([clock.barStart(bar), clock.barStart(bar + 1)]).toEqual([ticks, behind]);
        });
      }),
      { seed: 222, numRuns: draws(300) },
    );
  });
});

describe('our notes and those of @tonejs/midi', () => {
  it('are the same where no pitch is struck again before its release', () => {
    const strokes = fc.array(
      fc.record({
        rest: fc.nat(500),
        held: fc.integer({ min: 1, max: 2000 }),
        pitch: fc.nat(127),
        velocity: fc.integer({ min: 1, max: 127 }),
        channel: fc.nat(15),
        isZero: fc.boolean(),
      }),
      { minLength: 1, maxLength: 40 },
    );
    fc.assert(
      fc.property(strokes, (found) => {
        let now = 0;
        const events = found.flatMap(({ rest, held, pitch, velocity, channel, isZero }) => {
          const from = now + rest;
          now = from + held;
          return [
            [from, 0x90 + channel, pitch, velocity],
            [now, (isZero ? 0x90 : 0x80) + channel, pitch, isZero ? 0 : 64],
          ] as const;
        });
        let before = 0;
        const body = events.flatMap(([tick, ...message]) => {
          const delta = quantity(tick - before);
          before = tick;
          return [...delta, ...message];
        });
        const file = midi([[...body, ...endOfTrack]]);
        const [track] = readMidi(file, 'a.mid').value?.tracks ?? [];
        if (!track) throw new Error('not read');
        const ours = partsOf(track).flatMap(({ channel }) =>
          pairedNotes(track, channel).notes.map(({ tick, endTick, pitch, velocity }) => [
            channel,
            tick,
            endTick - tick,
            pitch,
            velocity,
          ]),
        );
        const theirs = new Midi(file).tracks.flatMap(({ channel, notes }) =>
          notes.map(({ ticks, durationTicks, midi: pitch, velocity }) => [
            channel,
            ticks,
            durationTicks,
            pitch,
            Math.round(velocity * 127),
          ]),
        );
        const inOrder = (notes: number[][]) => [...notes].sort((a, b) => (a[1] ?? 0) - (b[1] ?? 0));
        expect(inOrder(ours)).toEqual(inOrder(theirs));
      }),
      { seed: 223, numRuns: draws(300) },
    );
  });
});
