import {
  type ControllerValues,
  type Events,
  firstData,
  isSystemOn,
  lastAtMost,
  lastTick,
  resetControllers,
  secondData,
  statusOf,
  sustain,
  tickOf,
} from '../../midi/index.js';

/** The controllers of a channel through a track. */
export interface Controls {
  /** The values in force where an event stands, by its index: those of all events before it. */
  at(eventIndex: number): ControllerValues;
  /** The tick to which the pedal holds a note that is released at an event: its own tick where the pedal is up. */
  heldTo(eventIndex: number, tick: number): number;
}

/** What Reset All Controllers sets (RP-015); controllers that it does not name stay. */
const afterReset: readonly (readonly [number, number])[] = [
  [1, 0],
  [11, 127],
  [64, 0],
  [65, 0],
  [66, 0],
  [67, 0],
];

/** A pedal at this or above is down (MIDI 1.0). */
const down = 64;

export const noControls: Controls = { at: () => new Map<number, number>(), heldTo: (_, tick) => tick };

export function isPedalDown(values: ControllerValues): boolean {
  return (values.get(sustain) ?? 0) >= down;
}

/** What one controller was set to, and where; unset again by a System On. */
interface Writes {
  readonly indices: number[];
  readonly values: (number | undefined)[];
}

/** Reads the controllers of a channel (0–15). General MIDI System On or Off makes all of them unset. */
export function readControls(events: Events, channel: number): Controls {
  const writes = new Map<number, Writes>();
  const write = (number: number, index: number, value: number | undefined) => {
    const of = writes.get(number) ?? { indices: [], values: [] };
    if (of.indices.length === 0) writes.set(number, of);
    of.indices.push(index);
    of.values.push(value);
  };
  const reset = (event: number) => {
    for (const [number, value] of afterReset) if (writes.has(number)) write(number, event, value);
  };
  const unset = (event: number) => {
    for (const number of writes.keys()) write(number, event, undefined);
  };
  const status = 0xb0 | channel;
  for (let event = 0; event < events.length; event++) {
    if (isSystemOn(events, event)) unset(event);
    if (statusOf(events, event) !== status) continue;
    const number = firstData(events, event);
    if (number === resetControllers) reset(event);
    else write(number, event, secondData(events, event));
  }
  const at = (eventIndex: number): ControllerValues => ({
    get: (number) => {
      const of = writes.get(number);
      return of?.values[lastAtMost(of.indices, eventIndex - 1)];
    },
  });
  const ups = pedalUps(writes.get(sustain));
  const end = lastTick(events);
  return {
    at,
    heldTo: (eventIndex, tick) => {
      if (eventIndex < 0 || !isPedalDown(at(eventIndex))) return tick;
      const up = ups[lastAtMost(ups, eventIndex) + 1];
      return up === undefined ? end : tickOf(events, up);
    },
  };
}

/** Indices of the events that let the pedal go. */
function pedalUps(pedal: Writes | undefined): readonly number[] {
  return pedal ? pedal.indices.filter((_, at) => (pedal.values[at] ?? 0) < down) : [];
}
