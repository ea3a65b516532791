import type { Track } from '../midi/index.js';

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
  track: Track,
  channel: number,
  controller: number,
  low: number,
  scale: (value: number) => number,
): ReadonlyMap<number, number> | undefined {
  const events = track.events.flatMap((event, index) =>
    event.type === 'controller' &&
    event.channel === channel &&
    (event.controllerType === controller || event.controllerType === low)
      ? [{ index, tick: track.ticks[index] ?? 0, isLow: event.controllerType === low, value: event.value }]
      : [],
  );
  if (!events.some(({ isLow }) => isLow)) return undefined;
  const values = new Map<number, number>();
  let high = 0;
  let sent = 0;
  events.forEach((event, at) => {
    const next = events[at + 1];
    if (event.isLow) {
      const wanted = inSteps(scale(high + event.value / steps)) - sent * steps;
      values.set(event.index, Math.max(0, Math.min(steps - 1, wanted)));
      return;
    }
    high = event.value;
    const beside = next?.isLow && next.tick === event.tick ? next.value : 0;
    sent = Math.floor(inSteps(scale(high + beside / steps)) / steps);
    values.set(event.index, sent);
  });
  return values;
}

function inSteps(value: number): number {
  return Math.max(0, Math.min(steps * steps - 1, Math.round(value * steps)));
}
