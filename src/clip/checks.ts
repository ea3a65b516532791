import type { Clip, ClipPart, ClipRemark } from './types.js';

/** A tempo has 32 bits, in units of 10 ns. */
export const longestQuarter = 0xffffffff / 100;

/** Everything that would make the file wrong. */
export function faultsOf(clip: Clip): readonly ClipRemark[] {
  const { ticksPerQuarter: ticks } = clip;
  const isResolution = Number.isInteger(ticks) && ticks >= 1 && ticks <= 0xffff;
  return [
    ...(isResolution ? [] : [resolution(ticks)]),
    ...clip.tempos.flatMap(({ tick, microsecondsPerQuarter }) =>
      microsecondsPerQuarter > 0 && microsecondsPerQuarter <= longestQuarter
        ? []
        : [
            fault(
              'clip-tempo',
              `at tick ${tick} a quarter lasts ${microsecondsPerQuarter} µs`,
              'a clip file has more than 0 and at most 42.9 s a quarter',
            ),
          ],
    ),
    ...clip.signatures.flatMap(({ tick, numerator, denominator }) =>
      isSignature(numerator, denominator)
        ? []
        : [
            fault(
              'clip-signature',
              `the time signature ${numerator}/${denominator} at tick ${tick} cannot be written`,
              'its upper number is 1 to 255, its lower one a power of two',
            ),
          ],
    ),
    ...sharedChannels(clip.parts),
  ];
}

function isSignature(numerator: number, denominator: number): boolean {
  const power = Math.log2(denominator);
  return Number.isInteger(power) && power >= 0 && power <= 255 && numerator >= 1 && numerator <= 255;
}

function resolution(ticks: number): ClipRemark {
  const hint = 'a clip file has a whole number of ticks to a quarter, 1 to 65,535';
  return fault('clip-resolution', `the music counts ${ticks} ticks to a quarter note`, hint);
}

function sharedChannels(parts: readonly ClipPart[]): readonly ClipRemark[] {
  const known = new Map<string, string>();
  return parts.flatMap(({ name, group, channel }) => {
    const isAddress = [group, channel].every((one) => Number.isInteger(one) && one >= 0 && one <= 15);
    const at = `group ${group + 1}, channel ${channel + 1}`;
    const other = known.get(at);
    known.set(at, name);
    const hint = 'a clip has 16 groups of 16 channels: give each part one of its own';
    if (!isAddress) return [fault('clip-channel', `"${name}" would go to ${at}`, hint)];
    if (other === undefined) return [];
    return [fault('clip-channel', `"${other}" and "${name}" would both go to ${at}`, hint)];
  });
}

function fault(code: ClipRemark['code'], message: string, hint: string): ClipRemark {
  return { code, message, hint };
}
