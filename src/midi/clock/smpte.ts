import type { Division } from '../song.js';
import type { Clock } from './clock.js';

/**
 * The clock of a file that counts parts of SMPTE frames: even throughout, whatever tempo events it has. It knows no
 * beats and no bars. 29 stands for 30 drop frame, 30,000 frames in 1,001 seconds (SMPTE ST 12-1).
 */
export function smpteClock({
  framesPerSecond,
  ticksPerFrame,
}: Extract<Division, { readonly kind: 'smpte' }>): Clock {
  const [frames, seconds] = framesPerSecond === 29 ? [30_000, 1001] : [framesPerSecond, 1];
  return {
    ticksPerWhole: null,
    ms: (tick) => (tick * 1000 * seconds) / (frames * ticksPerFrame),
    tickAt: (ms) => Math.max(0, Math.round((ms * frames * ticksPerFrame) / (1000 * seconds))),
    position: () => null,
    barStart: () => null,
  };
}
