import { describe, expect, it } from 'vitest';
import { EventBuilder, type Events } from '../../../src/midi/events/index.js';
import { Identities, isSame } from '../../../src/prove/against/identity.js';

const own = (channel: number) => channel;
const together = () => 0;

/** One event, put into a track of its own. */
const event = (put: (track: EventBuilder) => void): Events => {
  const track = new EventBuilder();
  put(track);
  return track.events();
};
const message = (status: number, one: number, two: number, tick = 3) =>
  event((track) => track.message(tick, status, one, two));
const meta = (type: number, ...data: readonly number[]) => event((track) => track.meta(0, type, data));

const on = message(0x90, 60, 80);
const text = meta(0x01, 97);
/** A text whose length is spelt in two bytes where one would do. */
const spelt: Events = {
  bytes: Uint8Array.of(0, 0xff, 0x01, 0x80, 0x01, 97),
  length: 1,
  ticks: Int32Array.of(0),
  status: Uint8Array.of(0xff),
  data: Uint32Array.of(2),
  end: Uint32Array.of(6),
};

/** Pairs of events, and whether they say the same. */
const pairs: readonly (readonly [what: string, a: Events, b: Events, isSame: boolean])[] = [
  ['time does not count', on, message(0x90, 60, 80, 9), true],
  ['nor does running status', on, event((track) => track.runningMessage(3, 0x90, 60, 80)), true],
  ['velocity does', on, message(0x90, 60, 81), false],
  ['pitch does', on, message(0x90, 61, 80), false],
  ['channel does', on, message(0x91, 60, 80), false],
  ['a release is no strike', message(0x90, 60, 0), on, false],
  ['how a release is written counts', message(0x90, 60, 0), message(0x80, 60, 0), false],
  ['programs are compared', message(0xc0, 5, 0), message(0xc0, 6, 0), false],
  ['and have one byte', message(0xc0, 5, 0), message(0xc0, 5, 9), true],
  ['texts are compared', text, meta(0x01, 98), false],
  ['to their ends', text, meta(0x01, 97, 98), false],
  ['a marker is no text', text, meta(0x06, 97), false],
  ['how a length is spelt does not count', text, spelt, true],
  ['a text is no message', text, on, false],
  [
    'what goes on is no beginning',
    event((track) => track.exclusive(0, 0xf0, [1, 2])),
    event((track) => track.exclusive(0, 0xf7, [1, 2])),
    false,
  ],
];

describe('whether two events say the same', () => {
  it.each(pairs)('%s', (_, a, b, expected) => {
    const identities = new Identities(own);
    expect(isSame(a, 0, b, 0, own)).toBe(expected);
    expect(identities.of(a, 0) === identities.of(b, 0)).toBe(expected);
    expect(identities.of(a, 0)).toBe(identities.of(a, 0));
  });

  it('notes of channels that belong together do; controllers do not', () => {
    expect(isSame(on, 0, message(0x91, 60, 80), 0, together)).toBe(true);
    const controller = message(0xb0, 1, 2);
    expect(isSame(controller, 0, message(0xb1, 1, 2), 0, together)).toBe(false);
    expect(isSame(controller, 0, message(0xb0, 1, 2), 0, together)).toBe(true);
  });
});
