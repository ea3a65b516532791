import { fullLaw, type PanLaw, shifted } from '../dynamics/index.js';
import { controllerEvents, secondData, type Track, tickOf } from '../midi/index.js';
import type { NewController } from './edit.js';

/** A change of one controller over a whole part: of each recorded value, and what is set where nothing was recorded. */
export interface Offset {
  readonly controller: number;
  /** The value that a recorded value becomes. */
  change(value: number, tick: number): number;
  readonly added: readonly NewController[];
}

/** A level as a change of a controller, and how much louder it would have to be than the controller can say. */
export interface LevelOffset extends Offset {
  /** Unit: dB; 0 where all is in reach. */
  readonly missing: number;
}

/** A change of level that holds from a tick on. */
export interface LevelStep {
  readonly tick: number;
  /** Against the level of the whole part. Unit: dB. */
  readonly by: number;
}

/**
 * A level written to a controller: recorded values are made so much louder or softer, by 40 · log10(value/127); where none
 * is recorded up to the first note, the value of the level is set at the beginning.
 *
 * @param by in dB
 * @param steps changes of it on the way, in order of tick; at each the value in force is sent again
 */
export function levelOffset(
  track: Track,
  channel: number,
  firstTick: number,
  controller: number,
  by: number,
  steps: readonly LevelStep[] = [],
): LevelOffset {
  const recorded = recordedValues(track, channel, controller, firstTick);
  const stepAt = (tick: number) => by + (steps.findLast((step) => step.tick <= tick)?.by ?? 0);
  const valueAt = (tick: number) => recorded.events.findLast((event) => event.tick <= tick)?.value ?? highest;
  const change = (value: number, tick: number) => (value === 0 ? 0 : shifted(value, stepAt(tick)).value);
  const sent = [
    ...(recorded.isSet ? [] : [{ tick: 0, value: highest }]),
    ...steps.map(({ tick }) => ({ tick, value: valueAt(tick) })),
  ];
  const needed = [...sent, ...recorded.events]
    .filter(({ value }) => value > 0)
    .map(({ tick, value }) => shifted(value, stepAt(tick)).headroom);
  const least = needed.reduce((lowest, headroom) => Math.min(lowest, headroom), 0);
  return {
    controller,
    change,
    added: sent.map(({ tick, value }) => ({ tick, controller, value: change(value, tick) })),
    missing: least < 0 ? -least : 0,
  };
}

/** The loudest value of a controller; it holds where none was sent. */
const highest = 127;

/**
 * A seat written to a controller: recorded values are moved by as many dB between the sides as the value moves the middle
 * (RP-036); where none is recorded up to the first note, the value is set at the beginning.
 *
 * @param value 0–127, for a part that is in the middle
 * @param law what the controller does to the library's recordings
 */
export function seatOffset(
  track: Track,
  channel: number,
  firstTick: number,
  controller: number,
  value: number,
  law: PanLaw = fullLaw,
): Offset {
  const { isSet } = recordedValues(track, channel, controller, firstTick);
  const by = law.differenceOf(value);
  const moved = (recorded: number) =>
    recorded === 0 ? 0 : Math.round(law.valueOf(law.differenceOf(recorded) + by));
  return { controller, change: moved, added: isSet ? [] : [{ tick: 0, controller, value }] };
}

function recordedValues(
  { columns }: Track,
  channel: number,
  controller: number,
  firstTick: number,
): {
  readonly events: readonly { readonly tick: number; readonly value: number }[];
  readonly isSet: boolean;
} {
  const events = controllerEvents(columns, channel, controller).map((event) => ({
    tick: tickOf(columns, event),
    value: secondData(columns, event),
  }));
  return { events, isSet: events.some(({ tick }) => tick <= firstTick) };
}
