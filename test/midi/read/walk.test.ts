import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import type { Song } from '../../../src/midi/song.js';
import { eventsOf } from '../../support/events.js';
import { bytes, endOfTrack, midi } from './bytes.js';

/** Where the first event of the first track stands. */
const first = 22;

function problem(body: string): unknown[] {
  const file = midi([bytes(body)]);
  const { value, diagnostics } = readMidi(file, 'a.mid');
  expect(value === undefined).toBe(diagnostics.some(({ severity }) => severity === 'error'));
  return diagnostics.map(({ code, place }) => [
    code,
    place.kind === 'bytes' ? place.offset - first : place.kind,
  ]);
}

describe('a track whose bytes are no events', () => {
  it('names the byte of a data byte of 0x80 or more', () => {
    expect(problem('00 90 3C 80')).toEqual([['midi-event', 3]]);
    expect(problem('00 90 FF 40')).toEqual([['midi-event', 2]]);
    expect(problem('00 C0 90')).toEqual([['midi-event', 2]]);
    expect(problem('00 C0 05 00 D0 F0')).toEqual([['midi-event', 5]]);
    expect(problem('00 90 3C 40 00 3C 85')).toEqual([['midi-event', 6]]);
  });

  it('names a data byte before the first status byte', () => {
    expect(problem('00 3C 40')).toEqual([['midi-event', 1]]);
    expect(problem('00 FF 01 01 41 00 3C 40')).toEqual([['midi-event', 6]]);
  });

  it('names a status that has no meaning in a file', () => {
    for (const status of ['F1', 'F2', 'F3', 'F4', 'F5', 'F6', 'F8', 'F9', 'FA', 'FB', 'FC', 'FD', 'FE'])
      expect(problem(`00 90 3C 40 00 ${status} 00`)).toEqual([['midi-event', 5]]);
  });

  it('names a time or length of more than four bytes', () => {
    expect(problem('00 90 3C 40 81 80 80 80 00 3C 00')).toEqual([['midi-event', 4]]);
    expect(problem('00 FF 01 81 80 80 80 00 41')).toEqual([['midi-event', 3]]);
    expect(problem('00 F0 80 80 80 80 01 F7')).toEqual([['midi-event', 2]]);
  });

  it('names the event in which it ends', () => {
    expect(problem('00 90 3C 40 00')).toEqual([['midi-truncated', 4]]);
    expect(problem('00 90 3C 40 81')).toEqual([['midi-truncated', 4]]);
    expect(problem('00 90 3C')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 90')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 C0')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 90 3C 40 10 3C')).toEqual([['midi-truncated', 4]]);
    expect(problem('00 FF')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 FF 01')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 FF 01 81')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 FF 01 02 41')).toEqual([['midi-truncated', 0]]);
    expect(problem('00 C0 05 00 F0 05 43 F7')).toEqual([['midi-truncated', 3]]);
    expect(problem('00 FF 7F FF FF FF 7F 00')).toEqual([['midi-truncated', 0]]);
  });

  it('does not look for the end of an event in the next track', () => {
    const file = midi([bytes('00 90 3C'), endOfTrack]);
    const { diagnostics } = readMidi(file, 'a.mid');
    expect(diagnostics.map(({ code, place }) => [code, place])).toEqual([
      ['midi-truncated', { kind: 'bytes', file: 'a.mid', offset: first }],
    ]);
  });

  it('is told with its number; each such track is reported', () => {
    const { diagnostics } = readMidi(midi([bytes('00 F4'), endOfTrack, bytes('00 F5')]), 'a.mid');
    expect(diagnostics.map(({ message }) => message.slice(0, 11))).toEqual(['in track 1,', 'in track 3,']);
    expect(diagnostics.map(({ message }) => message.includes('0xF4'))).toEqual([true, false]);
  });
});

describe('a track that takes liberties', () => {
  const typesOf = (song: Song | undefined) => eventsOf(song?.tracks[0]).map(({ event }) => event.type);
  const read = (body: string) => readMidi(midi([bytes(body)]), 'a.mid');

  it('may run on with a status across meta and system exclusive events', () => {
    const { value, diagnostics } = read(
      '00 91 3C 40 05 FF 01 01 41 05 3E 40 05 F0 01 F7 05 40 40 00 FF 2F 00',
    );
    expect(diagnostics).toEqual([]);
    expect(
      eventsOf(value?.tracks[0]).map(({ event }) => [event.type, 'channel' in event && event.channel]),
    ).toEqual([
      ['noteOn', 1],
      ['text', false],
      ['noteOn', 1],
      ['sysEx', false],
      ['noteOn', 1],
      ['endOfTrack', false],
    ]);
    expect([...(value?.tracks[0]?.columns.ticks ?? [])]).toEqual([0, 5, 10, 15, 20, 20]);
  });

  it('may have no end, which is not added', () => {
    const { value, diagnostics } = read('00 90 3C 40 60 3C 00');
    expect(diagnostics).toEqual([]);
    expect(typesOf(value)).toEqual(['noteOn', 'noteOff']);
  });

  it('may go on behind its end', () => {
    const { value, diagnostics } = read('00 FF 2F 00 60 90 3C 40 60 80 3C 40 00 FF 2F 00');
    expect(diagnostics).toEqual([]);
    expect(typesOf(value)).toEqual(['endOfTrack', 'noteOn', 'noteOff', 'endOfTrack']);
    expect([...(value?.tracks[0]?.columns.ticks ?? [])]).toEqual([0, 96, 192, 192]);
  });

  it('may be empty', () => {
    const { value, diagnostics } = read('');
    expect(diagnostics).toEqual([]);
    expect(value?.tracks[0]?.columns.length).toBe(0);
  });
});
