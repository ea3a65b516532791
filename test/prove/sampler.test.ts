import { describe, expect, it } from 'vitest';
import type { ArticulationMap } from '../../src/map/types.js';
import { libraryOf } from '../../src/prove/library.js';
import { Sampler } from '../../src/prove/sampler.js';
import type { Timed } from '../support/song.js';
import { cc, columnsOf, library, off, on, program } from './events.js';

/** What is selected on a channel after some events. */
function selected(map: ArticulationMap, events: readonly Timed[], channel = 0): readonly string[] {
  const columns = columnsOf([...events, on(1000, 60, 80, channel)]);
  const sampler = new Sampler(libraryOf(map, 0), columns);
  for (let event = 0; event < events.length; event++) sampler.hear(event);
  return sampler.selected(events.length).map(({ name }) => name);
}

const latching = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
const momentary = library(
  ['plain: {}', 'one: {switch: {note: 0}}', 'two: {switch: {note: 1}}'],
  '{notes: momentary}',
);

describe('keys', () => {
  it('latch', () => {
    expect(selected(latching, [])).toEqual([]);
    expect(selected(latching, [on(0, 0), off(5, 0)])).toEqual(['one']);
    expect(selected(latching, [on(0, 0), on(1, 1), off(2, 1), off(3, 0)])).toEqual(['two']);
  });

  it('hold, alone', () => {
    expect(selected(momentary, [])).toEqual(['plain']);
    expect(selected(momentary, [on(0, 0)])).toEqual(['one']);
    expect(selected(momentary, [on(0, 0), on(1, 1)])).toEqual([]);
    expect(selected(momentary, [on(0, 0), on(1, 1), off(2, 0)])).toEqual(['two']);
    expect(selected(momentary, [on(0, 0), off(2, 0)])).toEqual(['plain']);
  });

  it('are let go by a note-on with velocity 0 (MIDI 1.0)', () => {
    expect(selected(momentary, [on(0, 0), on(2, 0, 0)])).toEqual(['plain']);
  });

  it.each([120, 123, 124, 125, 126, 127])('are let go by channel mode message %i (MIDI 1.0)', (mode) => {
    expect(selected(momentary, [on(0, 0), cc(1, mode, 0)])).toEqual(['plain']);
    expect(selected(latching, [on(0, 0), cc(1, mode, 0)])).toEqual(['one']);
  });

  it('of the melody change nothing', () => {
    expect(selected(latching, [on(0, 0), on(1, 60), off(2, 60)])).toEqual(['one']);
  });

  it('have a state for each channel', () => {
    const far = library(['near: {switch: {note: 0}}', 'far: {switch: [{note: 0}, {channel: 2}]}']);
    expect(selected(far, [on(0, 0)], 1)).toEqual([]);
    expect(selected(far, [on(0, 0, 100, 1)], 1)).toEqual(['far']);
  });
});

describe('controllers and programs', () => {
  const map = library([
    'one: {switch: {program: 5, bank: [1, 2]}}',
    'two: {switch: {program: 5}}',
    'loud: {switch: {controller: 20, value: 9}}',
  ]);

  it('need a bank from before the program', () => {
    expect(selected(map, [cc(0, 0, 1), cc(0, 32, 2), program(0, 5)])).toEqual(['one', 'two']);
    expect(selected(map, [program(0, 5), cc(0, 0, 1), cc(0, 32, 2)])).toEqual(['two']);
    expect(selected(map, [cc(0, 0, 1), program(0, 4), cc(0, 32, 2), program(0, 5)])).toEqual(['one', 'two']);
  });

  it('are forgotten as devices are reset: controllers by 121, all by General MIDI System On (RP-003)', () => {
    const set = [cc(0, 20, 9), cc(0, 0, 1), cc(0, 32, 2), program(0, 5)];
    const exclusive = (...data: readonly number[]): Timed => {
      return { tick: 1, event: { type: 'sysEx', data } as Timed['event'] };
    };
    const systemOn = exclusive(0x7e, 0x7f, 0x09, 0x01, 0xf7);
    const other = exclusive(0x7e, 0x7f, 0x06, 0x01, 0xf7);
    expect(selected(map, set)).toEqual(['one', 'two', 'loud']);
    expect(selected(map, [...set, cc(1, 121, 0)])).toEqual(['one', 'two']);
    expect(selected(map, [...set, systemOn])).toEqual([]);
    expect(selected(map, [...set, other])).toEqual(['one', 'two', 'loud']);
    expect(selected(latching, [on(0, 0), systemOn])).toEqual(['one']);
  });
});

describe('an aspect of several kinds', () => {
  const map = library([
    'one: {switch: {note: 0, aspect: g}}',
    'two: {switch: {controller: 20, value: 9, aspect: g}}',
  ]);

  it('holds what came last', () => {
    expect(selected(map, [on(0, 0), cc(1, 20, 9)])).toEqual(['two']);
    expect(selected(map, [cc(0, 20, 9), on(1, 0)])).toEqual(['one']);
    expect(selected(map, [on(0, 0), cc(1, 20, 8)])).toEqual([]);
  });
});
