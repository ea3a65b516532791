import {
  type Heard,
  type HearOptions,
  type HearPart,
  hear,
  type Result,
} from '../../../../src/sound/hear/index.js';
import { testBank } from './bank.js';

export interface Rendered {
  readonly heard: Heard;
  readonly left: Float32Array;
  readonly right: Float32Array;
}

export const rate = 48_000;

/** A part with what is given; nothing else in it. */
export function part(more: Partial<HearPart>): HearPart {
  return { name: 'a', program: 0, articulations: [], notes: [], controllers: [], ...more };
}

export async function tryRender(
  parts: readonly HearPart[],
  options: Partial<HearOptions> = {},
  bank: Uint8Array = testBank(),
): Promise<Result<Rendered>> {
  const left: number[] = [];
  const right: number[] = [];
  const result = await hear(
    parts,
    bank,
    { sampleRate: rate, ...options },
    {
      format: 'float',
      sink: {
        begin() {},
        write(block) {
          left.push(...block.left);
          right.push(...block.right);
        },
        end() {},
      },
    },
  );
  if (!result.ok) return result;
  return {
    ok: true,
    value: { heard: result.value, left: Float32Array.from(left), right: Float32Array.from(right) },
  };
}

export async function rendered(...given: Parameters<typeof tryRender>): Promise<Rendered> {
  const result = await tryRender(...given);
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}

/** The first frame that is not silent. */
export function onsetOf(samples: Float32Array): number {
  return samples.findIndex((sample) => Math.abs(sample) > 1e-4);
}

/** Root of the mean square between two times. Unit: dB of full scale. */
export function levelOf(samples: Float32Array, fromMs: number, toMs: number): number {
  const stretch = samples.subarray((fromMs * rate) / 1000, (toMs * rate) / 1000);
  const energy = stretch.reduce((sum, sample) => sum + sample * sample, 0);
  return 10 * Math.log10(energy / stretch.length);
}
