/** How the time of a plan becomes the time of its bounce: start + speed × time. */
export interface Timeline {
  /** When the plan begins. Unit: seconds of the bounce. */
  readonly start: number;
  /** Seconds of the bounce for a second of the plan: 1, but for the drift of a clock. */
  readonly speed: number;
}

/** Unit: seconds of the bounce. */
export function bounceTime({ start, speed }: Timeline, planTime: number): number {
  return start + speed * planTime;
}

/** How far the bounce runs slow. Unit: parts in a million. */
export function driftOf({ speed }: Timeline): number {
  return (speed - 1) * 1e6;
}
