import { type Events, longData, metaType, metaTypes, nextMeta, tickOf } from '../events/index.js';
import type { Track } from '../track.js';

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
  if (metaType(events, event) !== metaTypes.tempo) return undefined;
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
  if (metaType(events, event) !== metaTypes.timeSignature) return undefined;
  const [numerator, exponent] = longData(events, event);
  if (numerator === undefined || exponent === undefined) return undefined;
  return numerator >= 1 && exponent <= 10 ? { numerator, denominator: 2 ** exponent } : undefined;
}

/** What meta events of tracks set, in order of tick; of several on one tick the last holds. */
export function lastOfEachTick<T>(
  tracks: readonly Track[],
  read: (events: Events, event: number) => T | undefined,
): readonly (readonly [tick: number, value: T])[] {
  const found = new Map<number, T>();
  for (const { columns } of tracks)
    for (let event = nextMeta(columns, 0); event >= 0; event = nextMeta(columns, event + 1)) {
      const value = read(columns, event);
      if (value !== undefined) found.set(tickOf(columns, event), value);
    }
  return [...found].sort(([a], [b]) => a - b);
}
