import { expect, it } from 'vitest';
import { slicesOf } from '../../../src/sheet/page/slices.js';
import { sheetNote, sheetPart, sheetSwitch } from './support.js';

const bars = [0, 1, 2, 3].map((bar) => ({
  bar: bar + 1,
  bars: 1,
  tick: bar * 1920,
  endTick: (bar + 1) * 1920,
  system: bar >> 1,
}));

it('a switch that is sent where its part has no staff stands in the next system that has it', () => {
  const switches = [sheetSwitch(0), sheetSwitch(3825)];
  const slices = slicesOf(sheetPart({ switches }), bars, new Map(), (system) => system === 1);
  expect(slices.map((slice) => slice.switches.map(({ tick }) => tick))).toEqual([[], [0, 3825]]);
});

it('a note is in the system where it is written, a switch where it is sent', () => {
  const notes = [sheetNote('a', 0), sheetNote('b', 3830), sheetNote('c', 5000)];
  const switches = [sheetSwitch(0), sheetSwitch(3825), sheetSwitch(3840)];
  const slices = slicesOf(sheetPart({ notes, switches }), bars, new Map([['b', 3840]]));
  expect(slices.map((slice) => slice.notes.map(({ id }) => id))).toEqual([['a'], ['b', 'c']]);
  expect(slices.map((slice) => slice.switches.map(({ tick }) => tick))).toEqual([[0, 3825], [3840]]);
});
