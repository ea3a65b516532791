import { identityStep } from './levels.js';

/** The velocity that is forte in MusicXML: `dynamics` of `sound` is a percentage of it (from memory). */
export const forteVelocity = 90;

/**
 * The note velocity of a level, for sounds whose loudness is their velocity: ppp 15, pp 30, p 45, mp 60, mf 75, f 90,
 * ff 105, fff 120. Forte is MusicXML's; each mark is a sixth of forte from the next, which is a choice of this program.
 *
 * @param level on the scale of marks
 * @returns 1–127
 */
export function velocityOfLevel(level: number): number {
  return Math.max(1, Math.min(127, Math.round(exactVelocityOfLevel(level))));
}

/** The same, neither rounded nor bounded: for reckoning, not for sending. */
export function exactVelocityOfLevel(level: number): number {
  return identityStep * (level + 1);
}

/**
 * A velocity made louder or softer, by the law of volume: 40 · log10(v/127) (General MIDI 2, 3.3.4, which says it of
 * controllers; the balance takes it for velocities too).
 *
 * @param by in dB
 * @returns 1–127
 */
export function velocityBy(velocity: number, by: number): number {
  return Math.max(1, Math.min(127, Math.round(velocity * 10 ** (by / 40))));
}

/** The level that a note velocity has; the loudest velocities lie above fff. */
export function levelOfVelocity(velocity: number): number {
  return velocity / identityStep - 1;
}

/** A level as MusicXML writes it: in percent of forte. */
export function percentOfForte(level: number): number {
  return (100 * identityStep * (level + 1)) / forteVelocity;
}
