import { controllerEvents, firstData, secondData, type Track, tickOf } from '../midi/index.js';

/** Steps of the low byte (LSB) to one of the high byte (MSB) of a controller of two bytes (MIDI 1.0). */
const steps = 128;

/** The controller that has the low byte of another: 32 above, for 0–31 (MIDI 1.0); undefined for those without one. */
export function lowByteOf(controller: number): number | undefined {
  return controller < 32 ? controller + 32 : undefined;
}

/**
 * New values of a controller that was recorded with two bytes, by the indices of its events: high and low bytes are taken
 * together, so that nothing of the finer curve is lost. A high byte sets the low one to 0 (MIDI 1.0), unless one stands
 * beside it on its tick; a low byte that stands alone stays within the step of the high byte that was sent last.
 *
 * @param scale what a value, 0 to below 128, becomes
 * @returns undefined where there is no low byte
 */
export function fineValues(
  { columns }: Track,
  channel: number,
  controller: number,
  low: number,
  scale: (value: number) => number,
): ReadonlyMap<number, number> | undefined {
  const isLow = (event: number) => firstData(columns, event) === low;
  const events = controllerEvents(columns, channel, controller, low);
  if (!events.some(isLow)) return undefined;
  const values = new Map<number, number>();
  let high = 0;
  let sent = 0;
  events.forEach((event, at) => {
    const value = secondData(columns, event);
    if (isLow(event)) {
      const wanted = inSteps(scale(high + value / steps)) - sent * steps;
      values.set(event, Math.max(0, Math.min(steps - 1, wanted)));
      return;
    }
    high = value;
    const next = events[at + 1] ?? event;
    const isBeside = isLow(next) && tickOf(columns, next) === tickOf(columns, event);
    sent = Math.floor(inSteps(scale(high + (isBeside ? secondData(columns, next) / steps : 0))) / steps);
    values.set(event, sent);
  });
  return values;
}

function inSteps(value: number): number {
  return Math.max(0, Math.min(steps * steps - 1, Math.round(value * steps)));
}
