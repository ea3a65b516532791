import { dataOf, type Events, endOf, isChannelMessage, lastTick, statusOf, tickOf } from './events.js';
import { type Message, messageBytes } from './message.js';
import { picked } from './picked.js';
import { type Ticks, ticksUpTo } from './ticks.js';

/**
 * Events in another order, on other ticks, or only some of them. The bytes stay where they are: the writer finds what
 * can be copied.
 *
 * @param order the old index of each event that is kept
 * @param ticks the tick of each, in the new order
 */
export function arranged(events: Events, order: ArrayLike<number>, ticks: Ticks): Events {
  const { bytes, status, data, end } = events;
  return {
    bytes,
    length: order.length,
    ticks,
    status: picked(status, order),
    data: picked(data, order),
    end: picked(end, order),
  };
}

/** Events without some of them, by index; the others stay as they are. */
export function withoutEvents(events: Events, isLeftOut: (event: number) => boolean): Events {
  const kept = new Uint32Array(events.length);
  const ticks = ticksUpTo(lastTick(events), events.length);
  let length = 0;
  for (let event = 0; event < events.length; event++) {
    if (isLeftOut(event)) continue;
    kept[length] = event;
    ticks[length] = tickOf(events, event);
    length += 1;
  }
  return arranged(events, kept.subarray(0, length), ticks.slice(0, length));
}

/** Channel messages with other second data bytes (velocities, values), by event. */
export function withSecondData(events: Events, values: ReadonlyMap<number, number>): Events {
  if (values.size === 0) return events;
  const bytes = events.bytes.slice();
  for (const [event, value] of values) bytes[dataOf(events, event) + 1] = value;
  return { ...events, bytes };
}

/** Channel messages with other first data bytes (pitches, controllers), by event. */
export function withFirstData(events: Events, values: ReadonlyMap<number, number>): Events {
  if (values.size === 0) return events;
  const bytes = events.bytes.slice();
  for (const [event, value] of values) bytes[dataOf(events, event)] = value;
  return { ...events, bytes };
}

/**
 * Channel messages with other channels and data bytes.
 *
 * @param change is asked for each event in order, and gives the message that it is to be, of the same kind; undefined
 *   where it stays
 */
export function withMessages(events: Events, change: (event: number) => Message | undefined): Events {
  const bytes = events.bytes.slice();
  const status = events.status.slice();
  for (let event = 0; event < events.length; event++) {
    const message = change(event);
    if (message === undefined) continue;
    const [said, one, two] = messageBytes(message);
    const at = dataOf(events, event);
    status[event] = said;
    bytes[at] = one;
    if (at + 1 < endOf(events, event)) bytes[at + 1] = two;
  }
  return { ...events, bytes, status };
}

/** Channel messages on other channels (0–15), by event. */
export function withChannels(events: Events, channels: ReadonlyMap<number, number>): Events {
  if (channels.size === 0) return events;
  const status = events.status.slice();
  for (const [event, channel] of channels)
    if (isChannelMessage(events, event)) status[event] = (statusOf(events, event) & 0xf0) | channel;
  return { ...events, status };
}

/**
 * Events with others put in; all keep their ticks and bytes.
 *
 * @param places for each of the others the index of the event before which it stands; rising
 */
export function merged(events: Events, others: Events, places: ArrayLike<number>): Events {
  const length = events.length + others.length;
  const bytes = new Uint8Array(events.bytes.length + others.bytes.length);
  bytes.set(events.bytes);
  bytes.set(others.bytes, events.bytes.length);
  const ticks = ticksUpTo(Math.max(lastTick(events), lastTick(others)), length);
  const status = new Uint8Array(length);
  const data = new Uint32Array(length);
  const end = new Uint32Array(length);
  let at = 0;
  const put = (from: Events, event: number, shift: number) => {
    ticks[at] = tickOf(from, event);
    status[at] = statusOf(from, event);
    data[at] = dataOf(from, event) + shift;
    end[at] = endOf(from, event) + shift;
    at += 1;
  };
  let next = 0;
  for (let event = 0; event <= events.length; event++) {
    for (; next < others.length && (event === events.length || (places[next] ?? 0) <= event); next++)
      put(others, next, events.bytes.length);
    if (event < events.length) put(events, event, 0);
  }
  return { bytes, length, ticks, status, data, end };
}
