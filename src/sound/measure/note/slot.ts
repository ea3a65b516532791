import { meanPower, type PowerSum, type StereoPower, stereoPower } from '../../signal/index.js';
import type { ProbePlan, ProbeSlot } from '../plan/index.js';
import { joinedOnset } from './joined.js';
import { type Length, lengthOf } from './length.js';
import { levelOf } from './level.js';
import { type Envelope, envelopeOf, isSilent, type Onset, onsetOf } from './onset.js';
import { type Signature, signatureOf } from './signature.js';
import { type Place, placeOf, without } from './stereo.js';

/** What was found in one slot of a bounce. */
export interface MeasuredSlot {
  readonly slot: ProbeSlot;
  /** Missing: the bounce ends before. */
  readonly state: 'heard' | 'silent' | 'missing';
  /** Absent where it does not stand out. For joined notes, of the second. */
  readonly onset?: Onset;
  /** Absent where it does not stand out from the noise. Unit: LUFS. */
  readonly level?: number;
  /** Where its first 80 ms are. */
  readonly seat?: number;
  /** How wide it is while it is steady. */
  readonly width?: number;
  /** How much louder the right side is than the left. Unit: dB. */
  readonly difference?: number;
  readonly length?: Length;
  /** Only where value and velocity are those that all articulations share. */
  readonly signature?: Signature;
}

/** A slot's sound. */
export interface SlotSound {
  readonly channels: readonly Float32Array[];
  readonly sampleRate: number;
  /** Where its first sample is on the plan's clock. Unit: seconds. */
  readonly from: number;
}

/** The direct sound: what is heard before the room answers. Unit: seconds. */
const direct = 0.08;

/** @param noise power where nothing sounds */
export function measureSlot(
  slot: ProbeSlot,
  { channels, sampleRate, from }: SlotSound,
  noise: PowerSum,
  plan: ProbePlan,
): MeasuredSlot {
  const [first, second] = slot.notes;
  const [left, right] = channels;
  const needed = (slot.notes.at(-1)?.at ?? 0) - from + 0.3;
  if (!first || !left || !right || left.length < needed * sampleRate) return { slot, state: 'missing' };
  const noteOn = first.at - from;
  if (second) {
    const pitches = [first.pitch, second.pitch] as const;
    return {
      slot,
      state: 'heard',
      ...optional('onset', joinedOnset(channels, sampleRate, pitches, second.at - from)),
    };
  }
  const power = stereoPower(left, right, sampleRate);
  const envelope = envelopeOf(power, first.pitch, noteOn, first.held);
  if (isSilent(envelope)) return { slot, state: 'silent' };
  const onset = onsetOf(envelope);
  const isCommon =
    slot.kind === 'note' && first.velocity === plan.common && (slot.value ?? plan.common) === plan.common;
  return {
    slot,
    state: 'heard',
    ...optional('onset', onset),
    ...optional('level', levelOf(power, noteOn, first.held, noise.left + noise.right)),
    ...(onset ? placeIn(power, noteOn + onset.at / 1000, noteOn, first.held, noise) : {}),
    ...optional('length', onset && lengthOf(onlyUntilNext(envelope, slot, from))),
    ...(isCommon ? { signature: signatureOf(channels, sampleRate, noteOn) } : {}),
  };
}

/** The envelope until the slot ends: what follows is another note. */
function onlyUntilNext(envelope: Envelope, slot: ProbeSlot, from: number): Envelope {
  const end = Math.floor((slot.at + slot.length - from) / envelope.step);
  return { ...envelope, levels: envelope.levels.subarray(0, end) };
}

function placeIn(
  power: StereoPower,
  begin: number,
  noteOn: number,
  held: number,
  noise: PowerSum,
): Pick<MeasuredSlot, 'seat' | 'width' | 'difference'> {
  const place = (sum: PowerSum | undefined): Place | undefined => sum && placeOf(without(sum, noise));
  const start = meanPower(power, begin, begin + direct);
  const whole = meanPower(power, noteOn, noteOn + held);
  const clean = whole && without(whole, noise);
  const difference =
    clean && clean.left > 0 && clean.right > 0 ? 10 * Math.log10(clean.right / clean.left) : undefined;
  return {
    ...optional('seat', place(start)?.seat),
    ...optional('width', place(whole)?.width),
    ...optional('difference', difference),
  };
}

function optional<K extends string, V>(key: K, value: V | undefined): { readonly [key in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [key in K]: V });
}
