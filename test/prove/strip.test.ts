import { describe, expect, it } from 'vitest';
import type { ArticulationMap } from '../../src/map/types.js';
import { type Events, messageAt, statusOf, tickOf } from '../../src/midi/events/index.js';
import { ownChannel, stripSwitches } from '../../src/prove/index.js';
import type { Timed } from '../support/song.js';
import { bend, cc, columnsOf, fileOf, library, note, off, on, program, tap } from './events.js';

const part = { track: 1, trackName: '', channel: 0 };
/** The channel messages of a track, each with its tick, in numbers: 0xSSAABB. */
const says = (columns: Events) =>
  Array.from({ length: columns.length }, (_, event) => event)
    .filter((event) => statusOf(columns, event) < 0xf0)
    .map((event) => [tickOf(columns, event), messageAt(columns, event)]);
const eventsOf = (events: readonly Timed[]) => says(columnsOf(events));
const stripped = (output: readonly Timed[], map: ArticulationMap) => {
  const track = stripSwitches(fileOf(output), part, map);
  if (!track) throw new Error('no track');
  return track.columns;
};

describe('stripSwitches', () => {
  it('takes out keys, controllers, banks and programs of the map, and leaves all else on its tick', () => {
    const map = library([
      'one: {switch: [{note: 0}, {controller: 20, value: 5}, {program: 7, bank: [1, 2]}]}',
      'two: {switch: [{note: 1}, {controller: 20, value: 6}, {program: 8}]}',
    ]);
    const music = [cc(100, 20, 99), cc(100, 1, 5), ...note(500, 900, 60), program(950, 40)];
    const switches = [
      ...tap(480, 0),
      cc(480, 20, 5),
      cc(480, 0, 1),
      cc(480, 32, 2),
      program(480, 7),
      ...tap(980, 1),
    ];
    const columns = stripped([...switches, ...music], map);
    expect(says(columns)).toEqual(eventsOf(music));
    expect([...columns.ticks]).toEqual([100, 100, 500, 900, 950, 1010]);
  });

  it('brings notes of other channels back, without the copies', () => {
    const map = library(['near: {}', 'far: {switch: [{channel: 3}, {note: 0}]}']);
    const output = [
      cc(100, 1, 5),
      cc(100, 1, 5, 2),
      bend(200, 3),
      bend(200, 3, 2),
      ...tap(480, 0, 2),
      ...note(500, 900, 60, 2),
    ];
    expect(says(stripped(output, map))).toEqual(
      eventsOf([cc(100, 1, 5), bend(200, 3), ...note(500, 900, 60)]),
    );
  });

  it('brings notes back to the keys and velocities that were written', () => {
    const map = library(
      ['soft: {switch: {note: 0}, velocity: {into: [1, 64]}}', 'drum: {switch: {note: 1}, key: D4}'],
      '{}',
      'transpose: -12',
    );
    // 127 was laid into 1 to 64; a key of a sound's own is not moved.
    const output = [on(500, 48, 64), off(600, 48), on(700, 62, 90), on(800, 62, 0)];
    expect(says(stripped(output, map))).toEqual(
      eventsOf([on(500, 60, 127), off(600, 60), on(700, 62, 90), on(800, 62, 0)]),
    );
  });

  it('leaves other channels alone', () => {
    const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
    const others = [on(5, 0, 100, 4), off(9, 0, 4), cc(10, 1, 2, 4)];
    expect(says(stripped(others, map))).toEqual(eventsOf(others));
  });

  it('has nothing to give where there is no such track', () => {
    const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
    expect(stripSwitches(fileOf([]), { ...part, track: 2 }, map)).toBeUndefined();
  });
});

describe('ownChannel', () => {
  const map = library(['a: {switch: [{channel: 3}, {note: 0}]}', 'b: {switch: {channel: 5}}']);
  const own = (events: readonly Timed[]) => {
    const [track] = fileOf(events).tracks;
    return track && ownChannel(track, map);
  };

  it('is the lowest with melody that the map does not send to', () => {
    expect(own([...note(0, 5, 60, 2), ...note(10, 15, 60, 9), ...note(20, 25, 60, 7)])).toBe(7);
  });

  it('is the lowest other with events, where all notes went elsewhere', () => {
    expect(own([cc(0, 1, 5, 8), cc(0, 1, 5, 2), ...note(0, 5, 60, 2)])).toBe(8);
    expect(own([...note(0, 5, 60, 4), ...note(0, 5, 60, 2)])).toBe(2);
  });

  it('does not take switch keys for melody', () => {
    expect(own([...tap(0, 0, 1), ...note(5, 9, 60, 6)])).toBe(6);
  });

  it('is unknown where there is nothing', () => {
    expect(own([])).toBeUndefined();
  });
});
