import type { PowerSum } from '../../signal/index.js';
import { seatOfDifference } from '../keyslip.js';

/** Where a sound is, and how much of the stage it fills. */
export interface Place {
  /** −1 left … 1 right. */
  readonly seat: number;
  /** 0 a point … 1 all of the stage. */
  readonly width: number;
}

/** What a sound that fills all of the stage evenly has as `narrowness`: sin(2δ)/2δ with δ = π/4. */
const widest = 2 / Math.PI;

/**
 * Seat and width of a sound from the power of its channels and their product. Taken is a row of unconnected sources,
 * spread evenly between two places of the pan law of RP-036, in which a place is an angle θ with cos θ on the left and
 * sin θ on the right. With δ half the angle that they fill, the covariance of the channels has
 * √((L − R)² + (2·LR)²) / (L + R) = sin 2δ / 2δ, and its main axis is their middle. Our own derivation.
 *
 * Channels that are less alike than a full stage makes them (spaced microphones, opposed phases) are called as wide as
 * the stage, and their seat is what their levels say for one so wide.
 */
export function placeOf({ left, right, cross }: PowerSum): Place | undefined {
  const total = left + right;
  if (!(total > 0)) return undefined;
  const side = left - right;
  const alike = 2 * Math.max(0, cross);
  const narrowness = Math.hypot(side, alike) / total;
  const cosine = Math.max(-1, Math.min(1, side / total / Math.max(narrowness, widest)));
  const angle = Math.acos(cosine) / 2;
  const difference = 20 * Math.log10(Math.tan(angle));
  return { seat: seatOfDifference(difference), width: widthOf(Math.min(1, narrowness)) };
}

/** The width whose sin 2δ / 2δ is the given one, by halving. */
function widthOf(narrowness: number): number {
  if (narrowness <= widest) return 1;
  let [low, high] = [0, 1];
  for (let round = 0; round < 40; round++) {
    const middle = (low + high) / 2;
    const angle = (middle * Math.PI) / 2;
    if (Math.sin(angle) / angle > narrowness) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Power without the noise's. */
export function without(power: PowerSum, noise: PowerSum): PowerSum {
  return {
    left: Math.max(0, power.left - noise.left),
    right: Math.max(0, power.right - noise.right),
    cross: power.cross - noise.cross,
  };
}
