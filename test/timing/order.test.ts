import { expect, it } from 'vitest';
import { orderKeeper } from '../../src/timing/order.js';

it('keeps a note behind the onset before it, and a tick more for its switch', () => {
  const keeper = orderKeeper();
  expect(keeper.earliest(100, 60, true)).toEqual({ behindNote: 0, behindPitch: 0 });
  keeper.put(60, 90);
  expect(keeper.earliest(200, 62, false)).toEqual({ behindNote: 90, behindPitch: 0 });
  expect(keeper.earliest(200, 62, true)).toEqual({ behindNote: 91, behindPitch: 0 });
});

it('keeps a repeated pitch apart from its earlier note', () => {
  const keeper = orderKeeper();
  keeper.earliest(100, 60, false);
  keeper.put(60, 90);
  expect(keeper.earliest(200, 60, false)).toEqual({ behindNote: 90, behindPitch: 91 });
});

it('does not order notes that were played at one tick among themselves', () => {
  const keeper = orderKeeper();
  keeper.earliest(100, 60, false);
  keeper.put(60, 90);
  expect(keeper.earliest(100, 60, true)).toEqual({ behindNote: 0, behindPitch: 0 });
  keeper.put(60, 40);
  // the latest of them counts
  expect(keeper.earliest(101, 60, false)).toEqual({ behindNote: 90, behindPitch: 91 });
});
