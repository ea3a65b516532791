import { describe, expect, it } from 'vitest';
import { compile } from '../../../src/compile/index.js';
import type { ArticulationMap } from '../../../src/map/types.js';
import { messageBytes, messageKind } from '../../../src/midi/index.js';
import type { Song } from '../../../src/midi/song.js';
import { mapOf } from '../../support/map.js';
import { putIn } from '../../support/message.js';
import { controllerAt, songOf, type TestNote, type Timed, trackOf } from '../../support/song.js';

const body = (short: string, long: string, head = '') => `${head}
range: [C2, C6]
articulations:
  short: {switch: ${short}}
  long: {switch: ${long}}
rules:
  - when: {held: {below: 200ms}}
    use: short
  - use: long
`;
const keys = mapOf(body('{note: C0}', '{note: D0}'));
const note = (pitch: number, tick = 0, end = tick + 400): TestNote => ({ tick, end, pitch });

function found(map: ArticulationMap, notes: readonly TestNote[], others: readonly Timed[] = [], channel = 0) {
  return foundIn(map, songOf([trackOf(notes, others, 'Horns')]), channel);
}

function foundIn(map: ArticulationMap, song: Song, channel = 0) {
  const { value, diagnostics } = compile(song, [{ part: { track: 1, trackName: 'Horns', channel }, map }]);
  return { isWritten: value !== undefined, diagnostics };
}

describe('a map and the music in each other’s way', () => {
  it('note-is-switch: a melody note on a switch key', () => {
    const { isWritten, diagnostics } = found(keys, [note(60), note(12, 960), note(14, 1440), note(12, 1920)]);
    expect(isWritten).toBe(false);
    expect(diagnostics).toMatchObject([
      {
        code: 'note-is-switch',
        severity: 'error',
        place: { track: 1, trackName: 'Horns', bar: 1, beat: 3, tick: 960 },
      },
      { code: 'note-is-switch', severity: 'error', place: { bar: 1, beat: 4, tick: 1440 } },
    ]);
    expect(diagnostics[0]?.message).toContain('C0 (2 times, here first)');
    expect(diagnostics[0]?.message).toContain('short');
  });

  it('already-switched: a file that was compiled before', () => {
    const song = songOf([trackOf([note(60), note(62, 960, 1060)], [], 'Horns')]);
    const first = compile(song, [{ part: { track: 1, trackName: 'Horns', channel: 0 }, map: keys }]).value;
    const inserted = first?.parts[0]?.switched.insertions;
    const switched = (inserted ? putIn(inserted) : []).filter(({ message }) => messageKind(message) === 0x90);
    const notes = switched.map(({ tick, message }) => ({
      tick,
      end: tick + 29,
      pitch: messageBytes(message)[1],
      velocity: 100,
    }));
    const again = found(keys, [note(60), note(62, 960, 1060), ...notes]);
    expect(again.isWritten).toBe(false);
    expect(again.diagnostics).toMatchObject([{ code: 'already-switched', severity: 'error' }]);
  });

  it('note-out-of-range: a note that the library has not', () => {
    const { isWritten, diagnostics } = found(keys, [note(60), note(85, 960), note(35, 1440)]);
    expect(isWritten).toBe(true);
    expect(diagnostics.map(({ code, severity }) => [code, severity])).toEqual([
      ['note-out-of-range', 'warning'],
      ['note-out-of-range', 'warning'],
    ]);
    expect(diagnostics[0]?.message).toContain('C#6');
  });

  it('switch-in-input: controllers and programs of the part in aspects of the map', () => {
    const map = mapOf(body('{controller: 20, value: 1}', '{program: 4}'));
    const program: Timed = {
      tick: 30,
      event: { type: 'programChange', channel: 0, programNumber: 60 } as Timed['event'],
    };
    const { isWritten, diagnostics } = found(
      map,
      [note(60)],
      [controllerAt(10, 20, 9), controllerAt(20, 20, 8), controllerAt(25, 1, 8), program],
    );
    expect(isWritten).toBe(true);
    expect(diagnostics).toMatchObject([
      { code: 'switch-in-input', severity: 'warning', place: { tick: 10 } },
      { code: 'switch-in-input', severity: 'warning', place: { tick: 30 } },
    ]);
  });

  it('channel-taken: notes would go out among others', () => {
    const map = mapOf(body('{channel: 3}', '{channel: 4}'));
    const { isWritten, diagnostics } = found(map, [note(60), { ...note(62, 480), channel: 3 }]);
    expect(isWritten).toBe(false);
    expect(diagnostics).toMatchObject([{ code: 'channel-taken', severity: 'error' }]);
    expect(found(map, [note(60), { ...note(62, 480), channel: 6 }]).isWritten).toBe(true);
  });

  it('channel-taken: two parts of a track would share a channel', () => {
    const map = mapOf(body('{channel: 3}', '{channel: 4}'));
    const song = songOf([trackOf([note(60), { ...note(62, 480), channel: 6 }], [], 'Two')]);
    const parts = [0, 6].map((channel) => ({ part: { track: 1, trackName: 'Two', channel }, map }));
    const { value, diagnostics } = compile(song, parts);
    expect(value).toBeUndefined();
    expect(diagnostics).toMatchObject([{ code: 'channel-taken', severity: 'error', place: { tick: 480 } }]);
  });

  it('fraction-without-beats: a file that counts SMPTE frames', () => {
    const map = mapOf(body('{note: C0}', '{note: D0}', 'switching: {tap: 1/64, restate: {every-bars: 4}}'));
    const song = songOf([trackOf([note(60)])], { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } });
    const { isWritten, diagnostics } = foundIn(map, song);
    expect(isWritten).toBe(false);
    expect(diagnostics.map(({ code, message }) => [code, message.split(' ')[0]])).toEqual([
      ['fraction-without-beats', 'tap'],
      ['fraction-without-beats', 'every-bars'],
    ]);
    expect(foundIn(keys, song).isWritten).toBe(true);
  });

  it('reports everything at once', () => {
    const map = mapOf(body('{note: C0}', '{channel: 4}'));
    const { diagnostics } = found(map, [note(12), note(100, 960), { ...note(62, 480), channel: 3 }]);
    expect(diagnostics.map(({ code }) => code).sort()).toEqual([
      'channel-taken',
      'note-is-switch',
      'note-out-of-range',
    ]);
  });
});
