import type { MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { EventBuilder, trackOf as newTrack } from '../../../src/midi/index.js';
import type { Song } from '../../../src/midi/song.js';
import { prove } from '../../../src/prove/index.js';
import { songOf, type Timed, textAt, trackOf } from '../../support/song.js';
import { bend, cc, fileOf, kindsOf, library, meantNotes, note, off, on, proofOf, tap } from '../events.js';

const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
const meant = [[500, 60, 'one']] as const;
const music = note(500, 900, 60);

describe('what happened to the music', () => {
  const compare = (input: readonly Timed[], output: readonly Timed[]) =>
    proofOf({ map, meant, input, output: [...tap(480, 0), ...output] }).violations.map(
      ({ kind, message }) => `${kind}: ${message}`,
    );

  it('is told in words', () => {
    const before = [...music, cc(600, 11, 5), bend(610, 9), textAt(620, 'a')];
    const on600 = (event: Timed) => [...music, event, bend(610, 9), textAt(620, 'a')];
    expect(compare(before, before)).toEqual([]);
    expect(compare(before, on600(cc(600, 11, 6)))).toEqual([
      'changed-event: controller 11 at 5 is now controller 11 at 6',
    ]);
    expect(compare(before, on600(cc(603, 11, 5)))).toEqual([
      'moved-event: controller 11 at 5 was moved by 3 ticks',
    ]);
    expect(compare(before, [...before.slice(0, 3), ...before.slice(4)])).toEqual([
      'missing-event: pitch bend 9 is missing',
    ]);
    expect(compare(before, [...before, cc(700, 12, 1)])).toEqual([
      'added-event: controller 12 at 1 was added, and is no switch',
    ]);
    expect(compare(before, [...before.slice(0, 4), textAt(620, 'b')])).toEqual([
      'changed-event: the event text is now another',
    ]);
    expect(
      compare([...music, cc(600, 1, 1), cc(600, 2, 2)], [...music, cc(600, 2, 2), cc(600, 1, 1)]),
    ).toEqual(['moved-event: controller 2 at 2 stands in another order on its tick']);
  });

  it('is told for a note by what is left of it', () => {
    const two = [...music, ...note(1000, 1100, 62)];
    const harder = [...music, on(1000, 62, 99), off(1100, 62)];
    expect(compare(two, harder)[0]).toBe(
      'changed-event: the note D4 (62) is now of velocity 99 instead of 80',
    );
    expect(compare(two, [...music, on(1000, 63), off(1100, 62)])[0]).toBe(
      'changed-event: the note D4 (62) is now the note D#4 (63)',
    );
  });
});

describe('a file that has nothing to do with the music', () => {
  it('is told event by event, however many there are', () => {
    // More than a call can be given as arguments.
    const many = new EventBuilder();
    for (let tick = 0; tick < 150_000; tick++) many.message(tick, 0xb0, 7, 64);
    const output = { ...fileOf(music), tracks: [newTrack(1, '', many.events())] };
    const part = { part: { track: 1, trackName: '', channel: 0 }, map, meant: meantNotes(meant) };
    const { violations } = prove({ output, input: fileOf(music), parts: [part] });
    expect(violations.filter(({ kind }) => kind === 'added-event').length).toBe(150_000);
  });
});

describe('copies for other channels', () => {
  const routed = library(['near: {}', 'far: {switch: {channel: 3}}']);
  const input = [cc(100, 7, 64), cc(100, 7, 64, 2), ...note(500, 900, 60)];
  const far = [[500, 60, 'far']] as const;

  it('may equal what the input has there itself', () => {
    const output = [cc(100, 7, 64), cc(100, 7, 64, 2), cc(100, 7, 64, 2), ...note(500, 900, 60, 2)];
    expect(kindsOf({ map: routed, meant: far, input, output })).toEqual([]);
    expect(kindsOf({ map: routed, meant: far, input, output: [...output.slice(1)] })).not.toEqual([]);
  });

  it('stand on the tick of their original', () => {
    const output = [cc(100, 7, 64), cc(100, 7, 64, 2), cc(101, 7, 64, 2), ...note(500, 900, 60, 2)];
    expect(kindsOf({ map: routed, meant: far, input, output })).toEqual(['missing-copy', 'added-event']);
  });
});

describe('a file as a whole', () => {
  const part = { part: { track: 1, trackName: '', channel: 0 }, map, meant: meantNotes(meant) };
  const output = fileOf([...tap(480, 0), ...music]);
  const against = (input: Song) => prove({ output, input, parts: [part] }).violations;

  it('must have its format, division, tracks and other chunks', () => {
    const input = fileOf(music);
    expect(against(input)).toEqual([]);
    expect(against({ ...input, format: 1 })).toMatchObject([{ kind: 'changed-file', track: null, tick: 0 }]);
    expect(against({ ...input, division: { kind: 'ppq', ppq: 480 } }).map(({ kind }) => kind)).toEqual([
      'changed-file',
    ]);
    const other = { kind: 'other', bytes: Uint8Array.of(1, 2, 3) } as const;
    expect(against({ ...input, chunks: [...input.chunks, other] }).map(({ kind }) => kind)).toEqual([
      'changed-file',
    ]);
    expect(against(songOf([trackOf([]), trackOf([])])).map(({ kind }) => kind)).toContain('changed-file');
  });

  it('must have its other tracks untouched', () => {
    const tracks = (...second: MidiEvent[]) =>
      songOf([trackOf([]), [...second, ...trackOf([{ tick: 100, end: 200, pitch: 70 }])]], { format: 1 });
    const bare = { ...part, meant: meantNotes([]) };
    const prog: MidiEvent = { deltaTime: 0, type: 'programChange', channel: 0, programNumber: 3 };
    expect(prove({ output: tracks(), input: tracks(), parts: [bare] }).violations).toEqual([]);
    expect(prove({ output: tracks(prog), input: tracks(), parts: [bare] }).violations).toMatchObject([
      { kind: 'added-event', track: 2 },
    ]);
    expect(prove({ output: tracks(), input: tracks(prog), parts: [bare] }).violations).toMatchObject([
      { kind: 'missing-event', track: 2 },
    ]);
  });
});
