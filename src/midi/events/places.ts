import { type Events, tickOf } from './events.js';

/** Where things are put into events. */
export interface PlacesBefore {
  /** For each the index of the event before which it stands; rising. */
  readonly places: readonly number[];
  /** The tick of each: its own, or that of the event, where it stands no later. */
  readonly ticks: readonly number[];
}

/**
 * Finds places for what is to be put into events.
 *
 * @param wanted the ticks at which it is to stand, rising
 * @param isBehind whether what is put in at a tick stands before an event
 */
export function placesBefore(
  events: Events,
  wanted: readonly number[],
  isBehind: (events: Events, event: number, tick: number) => boolean,
): PlacesBefore {
  const places: number[] = [];
  const ticks: number[] = [];
  let place = 0;
  for (const tick of wanted) {
    while (place < events.length && !isBehind(events, place, tick)) place += 1;
    places.push(place);
    ticks.push(place < events.length ? Math.min(tick, tickOf(events, place)) : tick);
  }
  return { places, ticks };
}
