import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { EventBuilder } from '../../../src/midi/events/index.js';
import { eventName } from '../../../src/prove/against/names.js';

const named = (status: 0xf0 | 0xf7 | 0xff, data: readonly number[], type = 0) => {
  const track = new EventBuilder();
  if (status === 0xff) track.meta(0, type, data);
  else track.exclusive(0, status, data);
  return eventName(track.events(), 0);
};

/** What `midi-file` calls a meta event, read from the bytes of a file. */
function nameElsewhere(type: number, data: readonly number[]): MidiEvent['type'] | undefined {
  const event = [0, 0xff, type, data.length, ...data];
  const end = type === 0x2f ? [] : [0, 0xff, 0x2f, 0];
  const length = event.length + end.length;
  const header = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 1, 0xe0];
  const file = [...header, 0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, length, ...event, ...end];
  return parseMidi(Uint8Array.from(file)).tracks[0]?.[0]?.type;
}

describe('the name of an event without a channel', () => {
  it.each([
    [0x00, 2],
    ...[1, 2, 3, 4, 5, 6, 7].map((type) => [type, 5]),
    [0x20, 1],
    [0x21, 1],
    [0x2f, 0],
    [0x51, 3],
    [0x54, 5],
    [0x58, 4],
    [0x59, 2],
    [0x7f, 3],
    [0x08, 3],
    [0x60, 1],
  ])('is that which midi-file gives meta event %i', (type = 0, length = 0) => {
    const data = Array.from({ length }, (_, at) => at + 1);
    expect(named(0xff, data, type)).toBe(nameElsewhere(type, data));
  });

  it('is unknown where a meta event is not as Standard MIDI File 1.0 has it', () => {
    expect(named(0xff, [1, 2, 3, 4], 0x51)).toBe('unknownMeta');
    expect(named(0xff, [0x80, 0, 0, 0, 0], 0x54)).toBe('unknownMeta');
    expect(named(0xff, [4, 11, 24, 8], 0x58)).toBe('unknownMeta');
    expect(named(0xff, [4, 2, 24, 0], 0x58)).toBe('unknownMeta');
    expect(named(0xff, new Array(8193).fill(97), 0x01)).toBe('unknownMeta');
  });

  it('tells system exclusive events from what goes on', () => {
    expect([named(0xf0, [1]), named(0xf7, [1])]).toEqual(['sysEx', 'endSysEx']);
  });
});
