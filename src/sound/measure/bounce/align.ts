import type { Slice, Wav } from '../../signal/index.js';
import type { ProbePlan } from '../plan/index.js';
import { findClicks } from './clicks.js';
import { type OpenSound, openStereo } from './open.js';
import type { Timeline } from './timeline.js';

/** How a bounce lies over a plan. */
export interface Alignment {
  readonly plan: ProbePlan;
  readonly timeline: Timeline;
  /** Which clicks were found. */
  readonly clicks: 'both' | 'start' | 'none';
}

/** The bounce is searched this far for its beginning. Unit: seconds. */
const farthestStart = 120;
const piece = { every: 7, length: 10 } as const;

/** How far a clock may be off before it is taken for another rate altogether. */
const mostDrift = 0.005;

/**
 * Finds which of several plans a bounce is of, where it begins and how fast it runs, from the three clicks at each end.
 * Without clicks at the end it is taken to run true; without any, the plan that is about as long is taken to begin with the
 * file.
 *
 * @throws WavError
 */
export async function align(open: OpenSound, plans: readonly ProbePlan[]): Promise<Alignment> {
  const [first] = plans;
  if (!first) throw new RangeError('no plan');
  const starts = await startsIn(open, plans);
  for (const { plan, at } of starts) {
    const end = await endIn(open, plan, at);
    if (end === undefined) continue;
    const planned = mean(plan.clicks.end) - mean(plan.clicks.start);
    const speed = (end - at) / planned;
    return { plan, timeline: { start: at - mean(plan.clicks.start) * speed, speed }, clicks: 'both' };
  }
  const [start] = starts;
  if (!start)
    return {
      plan: await nearestLength(open, plans, first),
      timeline: { start: 0, speed: 1 },
      clicks: 'none',
    };
  const { plan, at } = start;
  return { plan, timeline: { start: at - mean(plan.clicks.start), speed: 1 }, clicks: 'start' };
}

async function nearestLength(
  open: OpenSound,
  plans: readonly ProbePlan[],
  first: ProbePlan,
): Promise<ProbePlan> {
  const wav = await openStereo(open);
  await wav.close();
  const { frames, format } = wav;
  if (frames === undefined) return first;
  const away = ({ seconds }: ProbePlan) => Math.abs(seconds - frames / format.sampleRate);
  return plans.reduce((best, plan) => (away(plan) < away(best) ? plan : best), first);
}

interface Found {
  readonly plan: ProbePlan;
  /** The mean of the three clicks. Unit: seconds of the bounce. */
  readonly at: number;
}

async function startsIn(open: OpenSound, plans: readonly ProbePlan[]): Promise<readonly Found[]> {
  const wav = await openStereo(open);
  const { sampleRate } = wav.format;
  const ranges = Array.from({ length: Math.ceil(farthestStart / piece.every) }, (_, index) => {
    const from = Math.round(index * piece.every * sampleRate);
    return { from, to: from + piece.length * sampleRate };
  });
  return firstOf(wav, ranges, (times) =>
    plans.flatMap((plan) => matches(times, plan.clicks.start).map((at) => ({ plan, at }))),
  );
}

async function endIn(open: OpenSound, plan: ProbePlan, start: number): Promise<number | undefined> {
  const wav = await openStereo(open);
  const { sampleRate } = wav.format;
  const away = (plan.clicks.end[0] ?? 0) - mean(plan.clicks.start);
  const slack = away * mostDrift + 0.1;
  const last = (plan.clicks.end.at(-1) ?? 0) - mean(plan.clicks.start);
  const from = Math.max(0, Math.round((start + away - slack) * sampleRate));
  const to = Math.round((start + last + slack) * sampleRate);
  const [found] = await firstOf(wav, [{ from, to }], (times) => matches(times, plan.clicks.end));
  return found;
}

/** What is found in the first of some pieces in which there is anything. */
async function firstOf<T>(
  wav: Wav,
  ranges: readonly { readonly from: number; readonly to: number }[],
  look: (times: readonly number[]) => readonly T[],
): Promise<readonly T[]> {
  const { sampleRate } = wav.format;
  try {
    for await (const slice of wav.slices(ranges)) {
      const clicks = findClicks(sumOf(slice), sampleRate);
      const found = look(clicks.map(({ at }) => (slice.from + at) / sampleRate));
      if (found.length > 0) return found;
    }
    return [];
  } finally {
    await wav.close();
  }
}

function sumOf({ channels }: Slice): Float32Array {
  const [left, right] = channels;
  if (!left) return new Float32Array(0);
  return right ? left.map((value, index) => value + (right[index] ?? 0)) : left;
}

/** The mean times of three clicks that stand apart as they should. */
function matches(times: readonly number[], planned: readonly number[]): readonly number[] {
  const [a = 0, b = 0, c = 0] = planned;
  const near = (time: number, wanted: number) => {
    const slack = 0.001 + mostDrift * wanted;
    return times.find((other) => Math.abs(other - time - wanted) < slack);
  };
  return times.flatMap((time) => {
    const [second, third] = [near(time, b - a), near(time, c - a)];
    return second === undefined || third === undefined ? [] : [mean([time, second, third])];
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
