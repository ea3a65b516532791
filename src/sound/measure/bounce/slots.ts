import { type PowerSum, stereoPower, type WavFormat } from '../../signal/index.js';
import { type MeasuredSlot, measureSlot } from '../note/slot.js';
import type { ProbePlan, ProbeSlot } from '../plan/index.js';
import { type OpenSound, openStereo } from './open.js';
import { bounceTime, type Timeline } from './timeline.js';

/** Before a note-on: what was before it, and time for filters to settle. Unit: seconds. */
const before = 0.45;

/** A bounce, measured note by note. */
export interface MeasuredBounce {
  readonly format: WavFormat;
  /** In order of time. */
  readonly slots: readonly MeasuredSlot[];
  /** Where nothing sounds: K-weighted mean power. */
  readonly noise: PowerSum;
}

/**
 * Measures each slot as soon as its sound has been read; no more than a slot or two are held at a time.
 *
 * @param onProgress told the share of the plan that was read, 0 to 1
 * @throws WavError
 */
export async function measureSlots(
  open: OpenSound,
  plan: ProbePlan,
  timeline: Timeline,
  onProgress?: (share: number) => void,
): Promise<MeasuredBounce> {
  const wav = await openStereo(open);
  const { format } = wav;
  const { sampleRate } = format;
  const frame = (planTime: number) => Math.max(0, Math.round(bounceTime(timeline, planTime) * sampleRate));
  const ranges = [
    { from: frame(plan.silence.from), to: frame(plan.silence.to) },
    ...plan.slots.map((slot) => ({ from: frame(beginOf(slot)), to: frame(slot.at + slot.length) })),
  ];
  const last = ranges.at(-1)?.to ?? 1;
  let noise: PowerSum = { left: 0, right: 0, cross: 0 };
  const slots: MeasuredSlot[] = [];
  let index = -1;
  try {
    for await (const { channels, from } of wav.slices(ranges, (at) => onProgress?.(Math.min(1, at / last)))) {
      const slot = plan.slots[index];
      index += 1;
      if (!slot) noise = noiseOf(channels, sampleRate);
      else {
        const planTime = (from / sampleRate - timeline.start) / timeline.speed;
        slots.push(
          measureSlot(
            slot,
            { channels, sampleRate: sampleRate * timeline.speed, from: planTime },
            noise,
            plan,
          ),
        );
      }
    }
  } finally {
    await wav.close();
  }
  return { format, slots, noise };
}

function beginOf(slot: ProbeSlot): number {
  return (slot.notes[0]?.at ?? slot.at) - before;
}

function noiseOf([left, right]: readonly Float32Array[], sampleRate: number): PowerSum {
  const { left: l, right: r, cross } = stereoPower(left ?? [], right ?? [], sampleRate);
  // The filters begin at rest; what they do to the first tenth is not noise.
  const skip = Math.round(l.length / 10);
  const mean = (values: Float64Array) =>
    values.subarray(skip).reduce((sum, value) => sum + value, 0) / Math.max(1, values.length - skip);
  return { left: mean(l), right: mean(r), cross: mean(cross) };
}
