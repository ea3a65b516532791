import { type Events, firstData, nextStatus } from './events.js';

/** The events of some controllers on a channel (0–15): their indices, in order. */
export function controllerEvents(
  events: Events,
  channel: number,
  ...controllers: readonly number[]
): readonly number[] {
  const status = 0xb0 | channel;
  const found: number[] = [];
  for (let event = nextStatus(events, status, 0); event >= 0; event = nextStatus(events, status, event + 1))
    if (controllers.includes(firstData(events, event))) found.push(event);
  return found;
}
