import { describe, expect, it } from 'vitest';
import { EventBuilder, isRunning, longData, statusOf } from '../../../src/midi/events/index.js';
import { eventsOf } from '../../support/events.js';

describe('a track that is put together', () => {
  it('is read by midi-file as what was put in', () => {
    const builder = new EventBuilder();
    builder.meta(0, 0x03, [0x41]);
    builder.message(3, 0xc2, 7, 99);
    builder.message(3, 0x92, 60, 80);
    builder.runningMessage(8, 0x92, 64, 81);
    builder.exclusive(9, 0xf0, [1, 2, 0xf7]);
    builder.meta(9, 0x2f, []);
    expect(eventsOf({ columns: builder.events() }).map(({ tick, event }) => [tick, event])).toMatchObject([
      [0, { type: 'trackName', text: 'A' }],
      [3, { type: 'programChange', channel: 2, programNumber: 7 }],
      [3, { type: 'noteOn', channel: 2, noteNumber: 60, velocity: 80 }],
      [8, { type: 'noteOn', channel: 2, noteNumber: 64, velocity: 81, running: true }],
      [9, { type: 'sysEx', data: Uint8Array.of(1, 2, 0xf7) }],
      [9, { type: 'endOfTrack' }],
    ]);
  });

  it('has events of another track byte for byte, on a channel of its own where it is told one', () => {
    const from = new EventBuilder();
    from.message(0, 0xb1, 1, 5);
    from.runningMessage(4, 0xb1, 1, 6);
    // A text whose length is spelled with a byte more than it needs.
    const padded = { ...from.events() };
    const bytes = Uint8Array.of(...padded.bytes, 0, 0xff, 1, 0x80, 1, 0x41);
    const at = padded.bytes.length + 2;
    const events = {
      bytes,
      length: 3,
      ticks: Int32Array.of(0, 4, 6),
      status: Uint8Array.of(...padded.status, 0xff),
      data: Uint32Array.of(...padded.data, at),
      end: Uint32Array.of(...padded.end, bytes.length),
    };
    const to = new EventBuilder();
    to.copy(10, events, 0, 0xb9);
    to.copy(11, events, 1, 0xb9);
    to.copy(12, events, 2);
    const made = to.events();
    expect([0, 1, 2].map((event) => [statusOf(made, event), isRunning(made, event)])).toEqual([
      [0xb9, false],
      [0xb9, true],
      [0xff, false],
    ]);
    expect([...longData(made, 2)]).toEqual([0x41]);
    expect([...made.bytes.subarray(made.data[2])]).toEqual([1, 0x80, 1, 0x41]);
    expect(eventsOf({ columns: made }).map(({ tick, event }) => [tick, event])).toMatchObject([
      [10, { type: 'controller', channel: 9, controllerType: 1, value: 5 }],
      [11, { type: 'controller', channel: 9, controllerType: 1, value: 6, running: true }],
      [12, { type: 'text', text: 'A' }],
    ]);
  });
});
