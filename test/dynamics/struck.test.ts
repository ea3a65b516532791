import { expect, it } from 'vitest';
import { struckOf } from '../../src/dynamics/struck.js';
import type { Line, MeasuredNote, Onset } from '../../src/midi/line.js';
import { plainClock } from '../timing/clock.js';

const span = (ms: number) => ({ ms, ticks: ms });

const note = (onset: number, pitch: number, marks: readonly string[], held = 400): MeasuredNote => ({
  onIndex: 0,
  offIndex: 0,
  tick: onset * 500,
  endTick: onset * 500 + held,
  pitch,
  velocity: 40 + pitch,
  onset,
  held: span(held),
  pace: span(500),
  heldShare: held / 500,
  restBefore: span(100),
  restAfter: span(500 - held),
  overlapsNext: false,
  overlapsPrevious: false,
  leap: null,
  repeatsPrevious: false,
  repeatsNext: false,
  controllers: new Map(),
  pedalDown: false,
  chord: 1,
  marks: new Set(marks),
});

const onset = (...notes: readonly [MeasuredNote, ...MeasuredNote[]]): Onset => ({
  index: notes[0].onset,
  tick: notes[0].tick,
  lastTick: notes[0].tick,
  pace: span(500),
  notes,
  top: notes.reduce((top, one) => (one.pitch > top.pitch ? one : top)),
});

const lineOf = (onsets: readonly Onset[]): Line => ({
  file: 'invented.mid',
  part: { track: 1, trackName: '', channel: 0 },
  clock: plainClock(500),
  notes: onsets.flatMap(({ notes }) => notes),
  onsets,
});

it('takes the top note, and the end of the longest', () => {
  const [first] = struckOf(lineOf([onset(note(0, 60, [], 450), note(0, 67, [], 300))]));
  expect(first).toEqual({
    tick: 0,
    lastTick: 0,
    endTick: 450,
    pitch: 67,
    velocity: 107,
    paceMs: 500,
    heldMs: 300,
    restAfterMs: 200,
    breath: false,
  });
});

it('takes one breath after a stretch of breath marks, and one for each that stands alone', () => {
  const marks = [[], ['breath-mark'], [], ['caesura'], ['breath-mark'], ['breath-mark'], ['tenuto']];
  const struck = struckOf(lineOf(marks.map((names, index) => onset(note(index, 60, names)))));
  expect(struck.map(({ breath }) => breath)).toEqual([false, true, false, true, false, true, false]);
});

it('a note held over others sounds on with them, and is long only up to the next', () => {
  const pedal = note(0, 72, [], 1800);
  const struck = struckOf(lineOf([onset(pedal), onset(note(1, 60, [])), onset(note(2, 62, []))]));
  expect(struck.map(({ endTick, heldMs }) => [endTick, heldMs])).toEqual([
    [1800, 500],
    [1800, 400],
    [1800, 400],
  ]);
});
