/** What a pan position does to both sides. Unit: dB; −Infinity where a side is silent. */
export interface PanGains {
  readonly left: number;
  readonly right: number;
}

/** Controller values from 1 to 127 span the stage; 0 is as 1, so that 64 is the middle. */
const span = 126;

/**
 * The default pan law of the MIDI Association's RP-036: with x = max(0, cc10 − 1)/126, left = 20 · log10(cos(πx/2)),
 * right = 20 · log10(sin(πx/2)) (from memory). 0 and 1 are hard left, 64 the middle with −3 dB on both sides, 127 hard
 * right.
 *
 * @param pan the value of controller 10, 0–127
 */
export function panGains(pan: number): PanGains {
  const x = shareOfPan(pan);
  // cos(π/2) is not quite 0 in floating point
  return {
    left: x === 1 ? Number.NEGATIVE_INFINITY : decibel(Math.cos((Math.PI * x) / 2)),
    right: decibel(Math.sin((Math.PI * x) / 2)),
  };
}

/** Where on the stage a pan value is heard: −1 left, 0 the middle, 1 right. */
export function seatOfPan(pan: number): number {
  return 2 * shareOfPan(pan) - 1;
}

/** The pan value (not rounded) of a place on the stage, −1 … 1; hard left is 1. */
export function panOfSeat(seat: number): number {
  return 1 + (span * (within(seat) + 1)) / 2;
}

/** How much louder the right side is than the left at a place on the stage. Unit: dB, infinite at the ends. */
export function differenceOfSeat(seat: number): number {
  const place = within(seat);
  if (Math.abs(place) === 1) return place * Number.POSITIVE_INFINITY;
  return decibel(Math.tan((Math.PI * (place + 1)) / 4));
}

/** The place on the stage at which the right side is so much louder than the left. The inverse of the law. */
export function seatOfDifference(difference: number): number {
  return (4 / Math.PI) * Math.atan(10 ** (difference / 20)) - 1;
}

function shareOfPan(pan: number): number {
  return Math.max(0, Math.min(span, pan - 1)) / span;
}

function within(seat: number): number {
  return Math.max(-1, Math.min(1, seat));
}

function decibel(amplitude: number): number {
  return 20 * Math.log10(amplitude);
}
