import type { HearNote, StandIn } from '../types.js';

/** A note as it will sound. */
export interface Sounding {
  readonly fromMs: number;
  readonly toMs: number;
  readonly key: number;
  readonly velocity: number;
}

/**
 * The shortest time for which a note sounds: a recording that speaks later than its note is let go is still heard. Own
 * choice, no source.
 */
export const leastMs = 40;

/** The velocity of notes whose loudness a curve says. Own choice: General MIDI sets volume to 100 at the start. */
export const curveVelocity = 100;

/**
 * When and how a note is heard: it begins when its library would be heard to begin, and is let go when it is let go, or
 * sooner where its stand-in is short. The share of a short stand-in is taken of the time that it is held, not of what the
 * delay leaves of it.
 *
 * @param isAsPlayed without delay
 */
export function sounding(
  { onsetMs, endMs, pitch, velocity, delayMs = 0 }: HearNote,
  { key, length, velocityScale = 1 }: StandIn,
  followsCurve: boolean,
  isAsPlayed: boolean,
): Sounding {
  const fromMs = onsetMs + (isAsPlayed ? 0 : Math.max(0, delayMs));
  const held = Math.max(0, endMs - onsetMs);
  const most = length?.mostMs ?? Number.POSITIVE_INFINITY;
  const isShort = length?.share !== undefined && length.share < 1;
  const natural = isShort ? fromMs + held * (length.share ?? 1) : endMs;
  const toMs = Math.max(fromMs + leastMs, Math.min(natural, fromMs + most));
  const scaled = Math.round((followsCurve ? curveVelocity : velocity) * velocityScale);
  return { fromMs, toMs, key: key ?? pitch, velocity: Math.max(1, Math.min(127, scaled)) };
}
