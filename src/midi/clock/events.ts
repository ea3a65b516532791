import type { MidiEvent } from '../song.js';

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
export function tempoOf(event: MidiEvent): number | undefined {
  const microseconds =
    event.type === 'setTempo' ? event.microsecondsPerBeat : numberAt(metaData(event, 0x51), 3);
  return microseconds === undefined || microseconds < 1 ? undefined : microseconds;
}

/**
 * The time signature that an event sets; undefined where it sets none, or one that means nothing: no beats to the
 * bar, or beats shorter than a 1024th note. The first two bytes say it; the others concern the metronome.
 */
export function signatureOf(event: MidiEvent): TimeSignature | undefined {
  if (event.type === 'timeSignature') return meaning(event.numerator, event.denominator);
  const data = metaData(event, 0x58);
  const [numerator, exponent] = [data?.[0], data?.[1]];
  return numerator === undefined || exponent === undefined ? undefined : meaning(numerator, 2 ** exponent);
}

function meaning(numerator: number, denominator: number): TimeSignature | undefined {
  return numerator >= 1 && denominator >= 1 && denominator <= 1024 ? { numerator, denominator } : undefined;
}

/** The data of a meta event of a type that the parser handed on as bytes. */
function metaData(event: MidiEvent, type: number): ArrayLike<number> | undefined {
  return event.type === 'unknownMeta' && event.metatypeByte === type ? event.data : undefined;
}

/** The number in the first bytes, the most significant first; undefined where there are fewer. */
function numberAt(data: ArrayLike<number> | undefined, count: number): number | undefined {
  if (!data || data.length < count) return undefined;
  let value = 0;
  for (let at = 0; at < count; at++) value = value * 256 + (data[at] ?? 0);
  return value;
}
