import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import { written } from '../write/written.js';
import { big, chunk, endOfTrack, midi } from './bytes.js';

const note = [0, 0x90, 60, 80, 0x60, 0x80, 60, 64, ...endOfTrack];
const joined = (...parts: ArrayLike<number>[]) => Uint8Array.from(parts.flatMap((part) => Array.from(part)));

function codes(file: Uint8Array): unknown[] {
  return readMidi(file, 'a.mid').diagnostics.map(({ code, severity, place }) => [
    code,
    severity,
    place.kind === 'bytes' ? place.offset : place.kind,
  ]);
}

describe('chunks', () => {
  it('that are no track are passed over and written back, wherever they stand', () => {
    const header = midi([], { count: 2 });
    const file = joined(
      header,
      chunk('XFIH', [1, 2, 3]),
      chunk('MTrk', note),
      chunk('\x00\xff\x1b[', [0xff, 0, 0x80]),
      chunk('MTrk', endOfTrack),
      chunk('Last', []),
    );
    const { value, diagnostics } = readMidi(file, 'a.mid');
    expect(diagnostics).toEqual([]);
    if (!value) throw new Error('not read');
    expect(value.tracks.map(({ number }) => number)).toEqual([1, 2]);
    expect(value.tracks.map(({ columns }) => columns.length)).toEqual([3, 1]);
    expect(value.chunks.map(({ kind }) => kind)).toEqual(['other', 'track', 'other', 'track', 'other']);
    expect(written(value)).toEqual(file);
    const second = value.tracks[1];
    if (!second) throw new Error('no second track');
    expect(written(value, new Map([[2, { events: second.columns }]]))).toEqual(file);
  });

  it('keep a few bytes at the end, with a warning', () => {
    const whole = midi([note]);
    for (const extra of [[0], [0, 0, 0, 0, 0, 0, 0]]) {
      const file = joined(whole, extra);
      const { value } = readMidi(file, 'a.mid');
      expect(codes(file)).toEqual([['midi-truncated', 'warning', whole.length]]);
      expect(value && written(value)).toEqual(file);
    }
  });

  it('must be whole: the offset is that of the chunk', () => {
    const whole = midi([note, note]);
    expect(codes(whole.subarray(0, whole.length - 1))).toEqual([
      ['midi-truncated', 'error', 14 + 8 + note.length],
    ]);
    const boast = joined(midi([note]), [0x4d, 0x54, 0x72, 0x6b], big(0xffffffff, 4), note);
    expect(codes(boast)).toEqual([['midi-truncated', 'error', 14 + 8 + note.length]]);
  });

  it('before a damaged one are looked at all the same', () => {
    const file = midi([[0, 0xf4], note]);
    expect(codes(file.subarray(0, file.length - 3))).toEqual([
      ['midi-event', 'error', 23],
      ['midi-truncated', 'error', 24],
    ]);
  });

  it('must hold a track', () => {
    expect(codes(midi([]))).toEqual([['no-tracks', 'error', 14]]);
    expect(codes(joined(midi([], { count: 1 }), chunk('XFIH', [1])))).toEqual([['no-tracks', 'error', 14]]);
  });

  it('are counted against the header', () => {
    const file = midi([note, note], { count: 3 });
    expect(codes(file)).toEqual([['track-count', 'warning', 10]]);
    expect(readMidi(file, 'a.mid').value?.tracks).toHaveLength(2);
    expect(codes(midi([note, note], { count: 1 }))).toEqual([['track-count', 'warning', 10]]);
  });

  it('of several tracks are read in format 0 too, with a warning', () => {
    const file = midi([note, note], { format: 0 });
    expect(codes(file)).toEqual([['midi-header', 'warning', 8]]);
    expect(readMidi(file, 'a.mid').value?.tracks).toHaveLength(2);
  });

  it('are at most as many as a header can count', () => {
    const many = joined(midi([note]), ...Array.from({ length: 65_535 }, () => chunk('Many', [])));
    expect(codes(many)).toEqual([['midi-too-large', 'error', 22 + note.length + 65_534 * 8]]);
    expect(codes(many.subarray(0, many.length - 8))).toEqual([]);
  });
});

describe('limits', () => {
  it('of size', () => {
    const file = midi([note]);
    expect(readMidi(file, 'a.mid', { maxBytes: file.length }).diagnostics).toEqual([]);
    const { value, diagnostics } = readMidi(file, 'a.mid', { maxBytes: file.length - 1 });
    expect(value).toBeUndefined();
    expect(diagnostics.map(({ code, place }) => [code, place])).toEqual([
      ['midi-too-large', { kind: 'file', file: 'a.mid' }],
    ]);
    expect(diagnostics[0]?.message).toContain(`limit is ${file.length - 1} bytes`);
  });

  it('of size, where none is given: 64 MiB', () => {
    const { diagnostics } = readMidi(new Uint8Array(65 * 1024 * 1024), 'a.mid');
    expect(diagnostics.map(({ code }) => code)).toEqual(['midi-too-large']);
    expect(diagnostics[0]?.message).toContain('limit is 64 MiB');
    // Read, and found to be no MIDI.
    const { diagnostics: within } = readMidi(new Uint8Array(64 * 1024 * 1024), 'a.mid');
    expect(within.map(({ code }) => code)).toEqual(['not-midi']);
  });

  it('of events', () => {
    const file = midi([note, note]);
    expect(readMidi(file, 'a.mid', { maxEvents: 6 }).diagnostics).toEqual([]);
    const { value, diagnostics } = readMidi(file, 'a.mid', { maxEvents: 5 });
    expect(value).toBeUndefined();
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      ['midi-too-large', 'the file has 6 events, and the limit is 5'],
    ]);
  });
});
