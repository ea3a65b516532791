import type { HearPart } from '../types.js';
import type { Message } from './message.js';
import type { Sound } from './sounds.js';

/** What a value becomes for one sound, without the frame and the sound. */
type Value = DistributiveOmit<Message, 'frame' | 'sound'>;
type DistributiveOmit<T, K extends keyof T> = T extends unknown ? Omit<T, K> : never;

/** Controllers with a meaning in General MIDI 1 and SoundFont 2, which are passed on as they are. */
const passedOn: ReadonlySet<number> = new Set([1, 7, 64, 66, 67]);

const expression = 11;
const pan = 10;
const balance = 8;
const resetAll = 121;

/** RP-015, Response to Reset All Controllers; volume, pan and program stay. */
const afterReset: readonly (readonly [controller: number, value: number])[] = [
  ...([1, 64, 66, 67] as const).map((controller) => [controller, 0] as const),
  [expression, 127],
];

/** The values in force for one sound, and what each new one says to the synthesiser. */
export interface Follower {
  set(controller: number, value: number): readonly Value[];
}

/**
 * Follows a part's controllers for one of its sounds. The library's dynamics are heard as a level, by the law of
 * controllers 7 and 11: 40 · log10(value/127) dB (General MIDI 2, 3.3.4 and 3.3.6); decibels add, so values multiply.
 */
export function follow({ dynamicsController }: HearPart, { followsCurve }: Sound): Follower {
  let [curve, expressed, panned, balanced] = [127, 127, 64, 64];

  const told: Record<number, (value: number) => void> = {
    [pan]: (value) => {
      panned = value;
    },
    [balance]: (value) => {
      balanced = value;
    },
    [expression]: (value) => {
      expressed = value;
    },
  };

  function set(controller: number, value: number): readonly Value[] {
    if (controller === resetAll)
      return [...afterReset.flatMap(([one, to]) => set(one, to)), { kind: 'bend', value: 8192 }];
    if (controller === dynamicsController) {
      // where 11 is the dynamics it has one meaning, not two
      curve = value;
      return followsCurve ? [level()] : [];
    }
    told[controller]?.(value);
    if (controller === expression) return [level()];
    if (controller === pan || controller === balance)
      return [{ kind: 'pan', seat: seatOf(panned, balanced) }];
    return passedOn.has(controller) ? [{ kind: 'controller', controller, value }] : [];
  }

  function level(): Value {
    const share = (expressed / 127) * (followsCurve ? curve / 127 : 1);
    return { kind: 'expression', value: Math.round(share * 127 * 128) };
  }

  return { set };
}

/**
 * Where pan and balance put a sound together, −1 left … 1 right, by RP-036: x = max(0, value − 1)/126, left cos(πx/2),
 * right sin(πx/2). The differences in dB between the sides add; of two at opposite ends the pan counts.
 */
export function seatOf(panned: number, balanced: number): number {
  const [x, y] = [shareOf(panned), shareOf(balanced)];
  if (y === 0.5 || x === 0 || x === 1) return 2 * x - 1;
  if (y === 0 || y === 1) return 2 * y - 1;
  const difference = Math.tan((Math.PI * x) / 2) * Math.tan((Math.PI * y) / 2);
  return (4 / Math.PI) * Math.atan(difference) - 1;
}

function shareOf(value: number): number {
  return Math.max(0, value - 1) / 126;
}
