import tonejs from '@tonejs/midi';
import fc from 'fast-check';
import { type MidiEvent, parseMidi, writeMidi as writeOutside } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import {
  channelOf,
  dataOf,
  type Events,
  endOf,
  firstData,
  isNoteOff,
  isNoteOn,
  isRunning,
  kindOf,
  lastTick,
  longData,
  metaType,
  secondData,
  statusOf,
  tickOf,
} from '../../../src/midi/events/index.js';
import { partsOf } from '../../../src/midi/notes/parts.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { draws } from '../../support/draws.js';
import { eventsOf, notesOn } from '../../support/events.js';
import { signature, songWith, tempo } from '../clock/songs.js';
import { plainFile } from './arbitrary.js';
import { endOfTrack, midi, quantity } from './bytes.js';

const { Header, Midi } = tonejs;

describe('our reader and the reader midi-file', () => {
  it('agree on the tick and the bytes of every event of every file that midi-file can read', () => {
    fc.assert(
      fc.property(plainFile, (file) => {
        const { value: song } = readMidi(file, 'a.mid');
        const parsed = parseMidi(file).tracks;
        expect(song?.tracks.map(({ columns }) => columns.length)).toEqual(parsed.map(({ length }) => length));
        parsed.forEach((events, index) => {
          const columns = song?.tracks[index]?.columns;
          if (!columns) throw new Error('not read');
          let tick = 0;
          events.forEach((event, at) => {
            tick += event.deltaTime;
            expect(tickOf(columns, at)).toBe(tick);
            expect(ourBytes(columns, at)).toEqual(bytesOf(event));
            expect(isRunning(columns, at)).toBe('running' in event);
          });
          expect(lastTick(columns)).toBe(tick);
        });
      }),
      { seed: 220, numRuns: draws(600) },
    );
  });

  it('agree on channels and data', () => {
    fc.assert(
      fc.property(plainFile, (file) => {
        const { value: song } = readMidi(file, 'a.mid');
        parseMidi(file).tracks.forEach((events, index) => {
          const columns = song?.tracks[index]?.columns;
          if (!columns) throw new Error('not read');
          for (const [at, event] of events.entries()) {
            const theirs = dataOfEvent(event);
            if (theirs) expect(ourData(columns, at)).toEqual(theirs);
          }
        });
      }),
      { seed: 221, numRuns: draws(300) },
    );
  });
});

/** What notes, controllers and exclusives say; undefined of other events. */
function dataOfEvent(event: MidiEvent): unknown {
  switch (event.type) {
    case 'noteOn':
    case 'noteOff':
      return [event.type, event.channel, event.noteNumber, event.velocity];
    case 'controller':
      return [0xb0, event.channel, event.controllerType, event.value];
    case 'sysEx':
    case 'endSysEx':
    case 'sequencerSpecific':
      return Array.from(event.data);
    default:
      return undefined;
  }
}

function ourData(columns: Events, at: number): unknown {
  if (statusOf(columns, at) >= 0xf0) return [...longData(columns, at)];
  const [isOn, isOff] = [isNoteOn(columns, at), isNoteOff(columns, at)];
  const kind = isOn ? 'noteOn' : isOff ? 'noteOff' : kindOf(columns, at);
  return [kind, channelOf(columns, at), firstData(columns, at), secondData(columns, at)];
}

/** Status and data of an event; a length is spelled as shortly as it can be. */
function ourBytes(columns: Events, at: number): readonly number[] {
  const status = statusOf(columns, at);
  const { bytes } = columns;
  if (status < 0xf0) return [status, ...bytes.subarray(dataOf(columns, at), endOf(columns, at))];
  const data = longData(columns, at);
  return [status, ...(status === 0xff ? [metaType(columns, at)] : []), ...quantity(data.length), ...data];
}

/** Status and data of an event, as `midi-file` writes it where nothing is left out. */
function bytesOf({ running: _, ...event }: MidiEvent & { readonly running?: boolean }): readonly number[] {
  const header = { format: 0, numTracks: 1, ticksPerBeat: 96 } as const;
  const alone = { ...event, deltaTime: 0 } as MidiEvent;
  // Behind the heads of file and track, and the time.
  return writeOutside({ header, tracks: [[alone]] }).slice(14 + 8 + 1);
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
        const timed = eventsOf(song.tracks[0]).map(({ tick, event }) => ({ ...event, absoluteTime: tick }));
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
          notesOn(track, channel).map(({ tick, endTick, pitch, velocity }) => [
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
