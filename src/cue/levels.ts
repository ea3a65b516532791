import {
  differenceOfSeat,
  faderFor,
  panOfSeat,
  seatOfDifference,
  seatOfPan,
  shifted,
} from '../dynamics/index.js';
import type { Track } from '../midi/index.js';
import type { NewController } from './edit.js';

/** A change of one controller over a whole part: of each recorded value, and what is set where nothing was recorded. */
export interface Offset {
  readonly controller: number;
  /** The value that a recorded value becomes. */
  change(value: number): number;
  readonly added: readonly NewController[];
}

/** A level as a change of a controller, and how much louder it would have to be than the controller can say. */
export interface LevelOffset extends Offset {
  /** Unit: dB; 0 where all is in reach. */
  readonly missing: number;
}

/**
 * A level written to a controller: recorded values are made so much louder or softer, by 40 · log10(value/127); where none
 * is recorded up to the first note, the value of the level is set at the beginning.
 *
 * @param by in dB
 */
export function levelOffset(
  track: Track,
  channel: number,
  firstTick: number,
  controller: number,
  by: number,
): LevelOffset {
  const recorded = recordedValues(track, channel, controller, firstTick);
  const set = faderFor(by);
  const needed = [...recorded.values]
    .filter((value) => value > 0)
    .map((value) => shifted(value, by).headroom);
  if (!recorded.isSet) needed.push(set.headroom);
  const least = needed.reduce((lowest, headroom) => Math.min(lowest, headroom), 0);
  return {
    controller,
    change: (value) => (value === 0 ? 0 : shifted(value, by).value),
    added: recorded.isSet ? [] : [{ tick: 0, controller, value: set.value }],
    missing: least < 0 ? -least : 0,
  };
}

/**
 * A seat written to a controller: recorded values are moved by as many dB between the sides as the value moves the middle
 * (RP-036); where none is recorded up to the first note, the value is set at the beginning.
 *
 * @param value 0–127, for a part that is in the middle
 */
export function seatOffset(
  track: Track,
  channel: number,
  firstTick: number,
  controller: number,
  value: number,
): Offset {
  const { isSet } = recordedValues(track, channel, controller, firstTick);
  const by = differenceOfSeat(seatOfPan(value));
  const moved = (recorded: number) =>
    recorded === 0 ? 0 : Math.round(panOfSeat(seatOfDifference(differenceOfSeat(seatOfPan(recorded)) + by)));
  return { controller, change: moved, added: isSet ? [] : [{ tick: 0, controller, value }] };
}

function recordedValues(
  track: Track,
  channel: number,
  controller: number,
  firstTick: number,
): { readonly values: ReadonlySet<number>; readonly isSet: boolean } {
  const values = new Set<number>();
  let isSet = false;
  track.events.forEach((event, index) => {
    if (event.type !== 'controller' || event.channel !== channel || event.controllerType !== controller)
      return;
    values.add(event.value);
    if ((track.ticks[index] ?? 0) <= firstTick) isSet = true;
  });
  return { values, isSet };
}
