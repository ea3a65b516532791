import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';
import { lineOfNotes, msTicks } from '../../support/line.js';
import { mapOf } from '../../support/map.js';
import type { Timed } from '../../support/song.js';

const set = (tick: number, controllerType: number, value: number, channel = 0): Timed => ({
  tick,
  event: { type: 'controller', channel, controllerType, value } as Timed['event'],
});
const notes = [0, 500, 1000, 1500].map((tick, index) => ({ tick, end: tick + 100, pitch: 60 + index }));

describe('controller', () => {
  it('is the value in force at the onset on the part’s channel; never set, it fits nothing', () => {
    const curve = [set(500, 1, 64), set(999, 1, 20), set(1200, 1, 90, 3), set(1200, 2, 90)];
    expect(fitting('{controller: {number: 1, from: 64}}', notes, curve)).toEqual([false, true, false, false]);
    expect(fitting('{controller: {number: 1, to: 127}}', notes, curve)).toEqual([false, true, true, true]);
    expect(fitting('{not: {controller: {number: 1, to: 127}}}', notes, curve)[0]).toBe(true);
  });

  // RP-015, Reset All Controllers: modulation 0, expression 127, pedals up; volume stays.
  it('follows reset all controllers', () => {
    const curve = [set(0, 1, 64), set(0, 7, 50), set(0, 64, 127), set(600, 121, 0)];
    expect(fitting('{controller: {number: 1, from: 1}}', notes, curve)).toEqual([true, true, false, false]);
    expect(fitting('{controller: {number: 7, from: 50}}', notes, curve)).toEqual([true, true, true, true]);
    expect(fitting('{pedal: down}', notes, curve)).toEqual([true, true, false, false]);
  });
});

describe('pedal', () => {
  it('is down from 64 on, and up before it was ever pressed', () => {
    const pedal = [set(400, 64, 64), set(900, 64, 63), set(1400, 64, 127)];
    expect(fitting('{pedal: down}', notes, pedal)).toEqual([false, true, false, true]);
    expect(fitting('{pedal: up}', notes, pedal)).toEqual([true, false, true, false]);
  });

  it('counts into what is held where the map says so, to its release', () => {
    const plain = 'articulations: {a: {}}\nrules:\n  - use: a\n';
    const pedal = [
      set(50, 64, 127),
      set(450, 64, 0),
      set(550, 64, 127),
      set(1010, 64, 0),
      set(1550, 64, 127),
    ];
    const line = (more: string) => lineOfNotes(notes, pedal, msTicks, mapOf(`${more}${plain}`)).notes;
    expect(line('pedal: lengthens\n').map(({ held }) => held.ms)).toEqual([450, 510, 100, 100]);
    expect(line('pedal: lengthens\n').map(({ overlapsNext }) => overlapsNext)).toEqual([
      ...[false, true, false, false],
    ]);
    expect(line('').map(({ held }) => held.ms)).toEqual([100, 100, 100, 100]);
    expect(line('pedal: lengthens\n').map(({ endTick }) => endTick)).toEqual([100, 600, 1100, 1600]);
  });
});
