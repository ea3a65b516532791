import { expect, it } from 'vitest';
import { OrderKeeper } from '../../src/timing/order.js';

const note = (onset: number, pitch: number, channel = 0) => ({ onset, pitch, channel });

it('keeps a note a tick behind the onset before it on its channel', () => {
  const keeper = new OrderKeeper();
  expect(keeper.earliest(note(0, 60))).toBe(0);
  expect(keeper.earliest(note(100, 60))).toBe(0);
  keeper.put(note(100, 60), 90);
  expect(keeper.earliest(note(200, 62))).toBe(91);
  expect(keeper.behindNote(note(200, 62))).toBe(91);
  expect(keeper.behindPitch(note(200, 62))).toBe(0);
  expect(keeper.earliest(note(200, 62, 1))).toBe(0);
});

it('keeps a repeated pitch apart from its earlier strike, on whatever channel', () => {
  const keeper = new OrderKeeper();
  keeper.put(note(100, 60), 90);
  expect(keeper.earliest(note(200, 60, 1))).toBe(91);
  expect(keeper.behindPitch(note(200, 60, 1))).toBe(91);
  expect(keeper.behindNote(note(200, 60, 1))).toBe(0);
});

it('lets what lies on one tick stay there, and looks to the latest of a chord', () => {
  const keeper = new OrderKeeper();
  keeper.put(note(100, 60), 90);
  keeper.put(note(110, 64), 80);
  expect(keeper.earliest(note(110, 67))).toBe(90);
  expect(keeper.earliest(note(111, 67))).toBe(91);
});
