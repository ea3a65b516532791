import { expect, it } from 'vitest';
import { orderKeeper } from '../../src/timing/order.js';

const note = (onset: number, pitch: number, channel = 0) => ({ onset, pitch, channel });

it('keeps a note a tick behind the onset before it on its channel', () => {
  const keeper = orderKeeper();
  expect(keeper.earliest(note(100, 60))).toEqual({ tick: 0, behind: 'nothing' });
  keeper.put([{ ...note(100, 60), tick: 90 }]);
  expect(keeper.earliest(note(200, 62))).toEqual({ tick: 91, behind: 'note' });
  expect(keeper.earliest(note(200, 62, 1))).toEqual({ tick: 0, behind: 'nothing' });
});

it('keeps a repeated pitch apart from its earlier strike, on whatever channel', () => {
  const keeper = orderKeeper();
  keeper.put([{ ...note(100, 60), tick: 90 }]);
  expect(keeper.earliest(note(200, 60, 1))).toEqual({ tick: 91, behind: 'pitch' });
});

it('lets what lies on one tick stay there, and looks to the latest of a chord', () => {
  const keeper = orderKeeper();
  keeper.put([
    { ...note(100, 60), tick: 90 },
    { ...note(110, 64), tick: 80 },
  ]);
  expect(keeper.earliest(note(110, 67))).toEqual({ tick: 90, behind: 'note' });
  expect(keeper.earliest(note(111, 67))).toEqual({ tick: 91, behind: 'note' });
});
