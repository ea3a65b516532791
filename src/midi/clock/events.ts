import { type Events, longData, metaType } from '../events/index.js';

/** Beats of a bar over the unit of a beat, as it is written on the stave: 6/8. */
export interface TimeSignature {
  readonly numerator: number;
  /** 1, 2, 4, … 1024: the part of a whole note that is a beat. */
  readonly denominator: number;
}

/**
 * The tempo that an event sets, in microseconds to a quarter note; undefined where it sets none, or one of 0.
 * Bytes behind the three that are known are passed over, as Standard MIDI File 1.0 asks for meta events.
 */
export function tempoAt(events: Events, event: number): number | undefined {
  if (metaType(events, event) !== 0x51) return undefined;
  const [most, middle, least] = longData(events, event);
  if (most === undefined || middle === undefined || least === undefined) return undefined;
  const microseconds = (most << 16) | (middle << 8) | least;
  return microseconds < 1 ? undefined : microseconds;
}

/**
 * The time signature that an event sets; undefined where it sets none, or one that means nothing: no beats to the
 * bar, or beats shorter than a 1024th note. The first two bytes say it; the others concern the metronome.
 */
export function signatureAt(events: Events, event: number): TimeSignature | undefined {
  if (metaType(events, event) !== 0x58) return undefined;
  const [numerator, exponent] = longData(events, event);
  if (numerator === undefined || exponent === undefined) return undefined;
  return numerator >= 1 && exponent <= 10 ? { numerator, denominator: 2 ** exponent } : undefined;
}
