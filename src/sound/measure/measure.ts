import { loudnessOfPower } from '../signal/index.js';
import { type Alignment, align } from './bounce/align.js';
import type { OpenSound } from './bounce/open.js';
import { type MeasuredBounce, measureSlots } from './bounce/slots.js';
import { driftOf } from './bounce/timeline.js';
import type { ProbedLibrary } from './library.js';
import { possiblePlans } from './plan/index.js';
import type { MeasureResult } from './result.js';
import { alikeIn } from './summary/alike.js';
import { summaryOf } from './summary/articulation.js';
import { doubtsOf } from './summary/doubts.js';
import { controllerLevels, velocityLevels } from './summary/levels.js';
import { marksOf } from './summary/marks.js';
import { panIn, placeIn } from './summary/place.js';
import { referenceByVelocity } from './summary/reference.js';

/**
 * Measures a bounce of a library's probe.
 *
 * @param open reads the WAV file from its beginning; called a few times. A piece that it gives must not be changed later
 * @param onProgress told the share that is done, 0 to 1, in the longest pass
 * @throws WavError where it is no stereo WAV file that can be read
 */
export async function measureBounce(
  library: ProbedLibrary,
  open: OpenSound,
  { onProgress }: { readonly onProgress?: (share: number) => void } = {},
): Promise<MeasureResult> {
  const alignment = await align(open, possiblePlans(library));
  const bounce = await measureSlots(open, alignment.plan, alignment.timeline, onProgress);
  return resultOf(library, alignment, bounce);
}

/** What the slots of a bounce come to together. */
export function resultOf(
  library: ProbedLibrary,
  { plan, timeline, clicks }: Alignment,
  { format, slots, noise }: MeasuredBounce,
): MeasureResult {
  const isTimed = clicks !== 'none';
  const levels = controllerLevels(slots, library);
  const velocities = velocityLevels(slots, library);
  const marked = marksOf(levels, library.levels);
  const noiseLevel = loudnessOfPower(noise.left + noise.right);
  const measured = {
    format: 'keyslip-measure/1',
    bounce: {
      sampleRate: format.sampleRate,
      bits: format.bits,
      encoding: format.encoding,
      startSeconds: timeline.start,
      driftPpm: driftOf(timeline),
      clicks,
      noise: Number.isFinite(noiseLevel) ? noiseLevel : null,
      plan: plan.options,
    },
    articulations: Object.fromEntries(
      library.articulations.map((one) => [one.name, summaryOf(one, slots, library, isTimed)]),
    ),
    levels,
    velocities,
    marks: marked?.marks ?? [],
    referenceLevel: marked?.referenceLevel ?? referenceByVelocity(velocities) ?? null,
    ...placeIn(slots),
    pan: panIn(slots),
    alike: alikeIn(slots, library),
  } as const;
  return { ...measured, doubts: doubtsOf(measured, slots, library) };
}
