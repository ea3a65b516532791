import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import { bytes, endOfTrack, midi } from './bytes.js';

/** Code, severity and byte offset of each diagnostic. */
function found(file: Uint8Array): unknown[] {
  return readMidi(file, 'a.mid').diagnostics.map(({ code, severity, place }) => [
    code,
    severity,
    place.kind === 'bytes' ? place.offset : place.kind,
  ]);
}

const division = (word: number) => readMidi(midi([endOfTrack], { division: word }), 'a.mid').value?.division;

describe('the header chunk', () => {
  it('says how ticks count: parts of a quarter note', () => {
    expect(division(96)).toEqual({ kind: 'ppq', ppq: 96 });
    expect(division(1)).toEqual({ kind: 'ppq', ppq: 1 });
    expect(division(0x7fff)).toEqual({ kind: 'ppq', ppq: 32767 });
  });

  it('says how ticks count: parts of a SMPTE frame', () => {
    // Standard MIDI File 1.0: E7 28 is 25 frames of 40 ticks, one tick a millisecond. From memory.
    expect(division(0xe728)).toEqual({ kind: 'smpte', framesPerSecond: 25, ticksPerFrame: 40 });
    expect(division(0xe804)).toEqual({ kind: 'smpte', framesPerSecond: 24, ticksPerFrame: 4 });
    expect(division(0xe350)).toEqual({ kind: 'smpte', framesPerSecond: 29, ticksPerFrame: 80 });
    expect(division(0xe264)).toEqual({ kind: 'smpte', framesPerSecond: 30, ticksPerFrame: 100 });
  });

  it('may be longer than six bytes, and is kept whole', () => {
    const longer = bytes('4D546864 00000008 0000 0001 0060 ABCD 4D54726B 00000004 00FF2F00');
    const { value, diagnostics } = readMidi(longer, 'a.mid');
    expect(diagnostics).toEqual([]);
    expect(value?.header).toEqual(longer.subarray(0, 16));
    expect(value?.tracks[0]?.columns.length).toBe(1);
  });

  it('must be there', () => {
    expect(found(bytes(''))).toEqual([['not-midi', 'error', 0]]);
    expect(found(bytes('4D'))).toEqual([['not-midi', 'error', 0]]);
    expect(found(bytes('52494646 00000000'))).toEqual([['not-midi', 'error', 0]]);
    expect(found(new TextEncoder().encode('A text that is no music at all.'))).toEqual([
      ['not-midi', 'error', 0],
    ]);
  });

  it('must be whole', () => {
    expect(found(bytes('4D546864 0000'))).toEqual([['midi-truncated', 'error', 0]]);
    expect(found(bytes('4D546864 00000006 0001 00'))).toEqual([['midi-truncated', 'error', 0]]);
    expect(found(bytes('4D546864 FFFFFFFF 0001 0001 0060'))).toEqual([['midi-truncated', 'error', 0]]);
  });

  it('has at least six bytes; what lies behind a shorter one is looked at all the same', () => {
    const short = bytes('4D546864 00000004 0000 0001 4D54726B 00000004 00F40000');
    expect(found(short)).toEqual([
      ['midi-header', 'error', 4],
      ['midi-event', 'error', 21],
    ]);
  });

  it('names format 0, 1 or 2', () => {
    for (const format of [0, 1, 2])
      expect(readMidi(midi([endOfTrack], { format }), 'a.mid').value?.format).toBe(format);
    expect(found(midi([endOfTrack], { format: 3 }))).toEqual([['midi-header', 'error', 8]]);
  });

  it('names a division that means something', () => {
    expect(found(midi([endOfTrack], { division: 0 }))).toEqual([['midi-header', 'error', 12]]);
    expect(found(midi([endOfTrack], { division: 0xe700 }))).toEqual([['midi-header', 'error', 13]]);
    expect(found(midi([endOfTrack], { division: 0x8028 }))).toEqual([['midi-header', 'error', 12]]);
    expect(found(midi([endOfTrack], { division: 0xe628 }))).toEqual([['midi-header', 'error', 12]]);
  });

  it('reports all that is wrong with it, and with the tracks, at once', () => {
    const file = midi([[0, 0xf1, 0, 0], endOfTrack, [0, 0x90, 0x80, 0]], { format: 7, division: 0 });
    expect(found(file)).toEqual([
      ['midi-header', 'error', 8],
      ['midi-header', 'error', 12],
      ['midi-event', 'error', 23],
      ['midi-event', 'error', 48],
    ]);
  });
});
