import { fullLaw, type PanLaw } from './answer.js';
import { differenceOfSeat, seatOfDifference } from './pan.js';

/** Where a recording already sits. */
export interface Seat {
  /** −1 left … 1 right. */
  readonly seat: number;
  /** How much of the stage it fills, 0 (a point) to 1 (all of it). */
  readonly width: number;
}

/** A recording put to its place. */
export interface Placing {
  /** The value of controller 10 or 8, 0–127. */
  readonly value: number;
  /** Where the middle of it is heard then. */
  readonly heard: number;
  /** How far it was to be moved, in seats: 2 is the whole stage. */
  readonly asked: number;
  /** Whether that is more than half the stage: another recording would serve better. */
  readonly isFar: boolean;
  /** Where it was to be heard, if the controller does not move it so far. */
  readonly unreached?: number;
}

/**
 * The share of the way that a recording is moved where nothing else is asked for: half. The rest of it is the room, which
 * was recorded around the old seat. Own choice, no source.
 */
export const defaultShare = 0.5;

/** Half the stage, in seats. */
const halfStage = 1;

/** A recording that is heard so much nearer is told to be. Unit: seats. Own choice, no source. */
const hearable = 0.1;

/** A recording that sits at an end has one silent side, which nothing makes louder; it is taken to be just inside. */
const outermost = 0.95;

/**
 * The value of controller 10 (pan) or 8 (balance) that moves a recording from its seat to where it is wanted. By RP-036 a
 * seat is a difference of level between the sides (`differenceOfSeat`), and so is a pan value; as differences in dB they
 * add: pan difference = wanted difference − recorded difference. A recording that is where it should be has 64. For
 * balance the MIDI 1.0 specification gives no law; the same is taken.
 *
 * A wide recording cannot be put at the edge: its middle stays half its width inside the stage, or at its own seat where
 * that lies farther out.
 *
 * @param wanted −1 left … 1 right
 * @param share how much of the way, 0 to 1; 1 so that two layered recordings share one place
 * @param law what the controller does to the recording
 */
export function place(
  recording: Seat,
  wanted: number,
  share: number = defaultShare,
  law: PanLaw = fullLaw,
): Placing {
  const from = bounded(recording.seat, outermost);
  const edge = Math.max(Math.abs(from), Math.min(outermost, 1 - recording.width / 2));
  const asked = wanted - recording.seat;
  const goal = from + share * (bounded(wanted, edge) - from);
  const difference = differenceOfSeat(goal) - differenceOfSeat(from);
  const value = Math.round(law.valueOf(difference));
  const heard = seatOfDifference(differenceOfSeat(from) + law.differenceOf(value));
  const isShort = law !== fullLaw && Math.abs(heard - goal) > hearable;
  return {
    value,
    heard,
    asked,
    isFar: Math.abs(asked) > halfStage,
    ...(isShort ? { unreached: goal } : {}),
  };
}

function bounded(seat: number, limit: number): number {
  return Math.max(-limit, Math.min(limit, seat));
}
