import { expect, it } from 'vitest';
import { controllerEvents, EventBuilder } from '../../../src/midi/events/index.js';

function columns() {
  const builder = new EventBuilder();
  builder.meta(0, 0x51, [7, 0xa1, 0x20]);
  builder.message(0, 0xb0, 1, 10);
  builder.message(0, 0xb1, 1, 11);
  builder.message(5, 0xb0, 11, 12);
  builder.message(5, 0x90, 1, 13);
  builder.runningMessage(9, 0xb0, 1, 14);
  return builder.events();
}

it('finds the events of controllers on one channel, in order', () => {
  expect(controllerEvents(columns(), 0, 1)).toEqual([1, 5]);
  expect(controllerEvents(columns(), 0, 1, 11)).toEqual([1, 3, 5]);
  expect(controllerEvents(columns(), 1, 1, 11)).toEqual([2]);
  expect(controllerEvents(columns(), 0, 64)).toEqual([]);
});
