import { describe, expect, it } from 'vitest';
import type { MidiEvent } from '../../../src/midi/song.js';
import { identityOf, isSame } from '../../../src/prove/against/identity.js';

const own = (channel: number) => channel;
const together = () => 0;
const on: MidiEvent = { deltaTime: 3, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 80 };
const off: MidiEvent = { deltaTime: 3, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0 };
const text: MidiEvent = { deltaTime: 0, meta: true, type: 'text', text: 'a' };
const unknown: MidiEvent = { deltaTime: 0, meta: true, type: 'unknownMeta', metatypeByte: 9, data: [1, 2] };

/** Pairs of events, and whether they say the same. */
const pairs: readonly (readonly [what: string, a: MidiEvent, b: MidiEvent, isSame: boolean])[] = [
  ['time does not count', on, { ...on, deltaTime: 9 }, true],
  ['nor does running status', on, { ...on, running: true }, true],
  ['velocity does', on, { ...on, velocity: 81 }, false],
  ['pitch does', on, { ...on, noteNumber: 61 }, false],
  ['channel does', on, { ...on, channel: 1 }, false],
  ['a release is no strike', { ...on, velocity: 0 }, off, false],
  ['how a release is written counts', off, { ...off, byte9: true }, false],
  ['texts are compared', text, { ...text, text: 'b' }, false],
  ['a marker is no text', text, { ...text, type: 'marker' }, false],
  ['bytes are compared', unknown, { ...unknown, data: [1, 3] }, false],
  ['whatever holds them', unknown, { ...unknown, data: Uint8Array.of(1, 2) }, true],
];

describe('whether two events say the same', () => {
  it.each(pairs)('%s', (_, a, b, expected) => {
    expect(isSame(a, b, own)).toBe(expected);
    expect(identityOf(a, own) === identityOf(b, own)).toBe(expected);
  });

  it('notes of channels that belong together do; controllers do not', () => {
    expect(isSame(on, { ...on, channel: 1 }, together)).toBe(true);
    const controller: MidiEvent = {
      deltaTime: 0,
      type: 'controller',
      channel: 0,
      controllerType: 1,
      value: 2,
    };
    expect(isSame(controller, { ...controller, channel: 1 }, together)).toBe(false);
    expect(isSame(controller, { ...controller }, together)).toBe(true);
  });
});
