import { beforeEach, describe, expect, it, vi } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import { endOfTrack, midi } from './bytes.js';

const parseMidi = vi.hoisted(() => vi.fn());
vi.mock('midi-file', () => ({ parseMidi }));

const file = midi([endOfTrack, endOfTrack]);
const found = () => {
  const { value, diagnostics } = readMidi(file, 'a.mid');
  expect(value).toBeUndefined();
  return diagnostics.map(({ code, place, message }) => [
    code,
    place.kind === 'bytes' && place.offset,
    message,
  ]);
};
const unreadable = [
  ['midi-event', 14, 'track 1 cannot be read'],
  ['midi-event', 26, 'track 2 cannot be read'],
];

describe('a parser that fails on what was found in order', () => {
  beforeEach(() => void parseMidi.mockReset());

  it('by throwing a string: the string reaches nobody', () => {
    parseMidi.mockImplementation(() => {
      throw 'Bad MIDI file.';
    });
    expect(found()).toEqual(unreadable);
  });

  it('by reading other events than there are', () => {
    parseMidi.mockReturnValue({ tracks: [[]] });
    expect(found()).toEqual(unreadable);
    parseMidi.mockReturnValue({ tracks: [] });
    expect(found()).toEqual(unreadable);
  });

  it('by reading another event where a meta event was masked', () => {
    const odd = midi([[0, 0xff, 0x00, 0]]);
    parseMidi.mockReturnValue({ tracks: [[{ deltaTime: 0, type: 'text', text: '' }]] });
    expect(readMidi(odd, 'a.mid').diagnostics.map(({ message }) => message)).toEqual([
      'track 1 cannot be read',
    ]);
  });
});
